/** What the browser keeps for the next visit. Each call says whether it worked: storage may be off or full. */
export interface Keeper {
  read(key: string): string | null;
  write(key: string, text: string): boolean;
}

/** A keeper whose keys can be looked through. */
export interface Cupboard extends Keeper {
  /** Every key that something is kept under. */
  keys(): readonly string[];
  remove(key: string): boolean;
  /** Why the last writing did not work; null where it did. */
  trouble(): 'full' | 'off' | null;
}

const PREFIX = 'heelwright.';

/** `open` gives the browser's storage: asking for it throws where storage is switched off. */
export function createKeeper(open: () => Storage = () => localStorage): Cupboard {
  let trouble: 'full' | 'off' | null = null;
  const attempt = (change: (storage: Storage) => void): boolean => {
    try {
      change(open());
      trouble = null;
    } catch (error) { trouble = isFull(error) ? 'full' : 'off'; }
    return trouble === null;
  };
  return {
    read: (key) => {
      try { return open().getItem(PREFIX + key); } catch { return null; }
    },
    write: (key, text) => attempt((storage) => { storage.setItem(PREFIX + key, text); }),
    remove: (key) => attempt((storage) => { storage.removeItem(PREFIX + key); }),
    keys: () => {
      try {
        const storage = open(), names = Array.from({ length: storage.length }, (_, place) => storage.key(place) ?? '');
        return names.filter((name) => name.startsWith(PREFIX)).map((name) => name.slice(PREFIX.length));
      } catch { return []; }
    },
    trouble: () => trouble,
  };
}

/** Code 22 is what browsers gave before the name was agreed on. */
function isFull(error: unknown): boolean {
  return error instanceof DOMException && (error.name === 'QuotaExceededError' || error.name === 'NS_ERROR_DOM_QUOTA_REACHED' || error.code === 22);
}
