/** What the browser keeps for the next visit. Each call says whether it worked: storage may be off or full. */
export interface Keeper {
  read(key: string): string | null;
  write(key: string, text: string): boolean;
}

const PREFIX = 'heelwright.';

export function createKeeper(): Keeper {
  return {
    read: (key) => {
      try { return localStorage.getItem(PREFIX + key); } catch { return null; }
    },
    write: (key, text) => {
      try {
        localStorage.setItem(PREFIX + key, text);
        return true;
      } catch { return false; }
    },
  };
}
