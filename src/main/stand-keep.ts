import { isBegun, readPlace } from '../sheet/knit-place.ts';
import type { KnitPlace } from '../sheet/knit-place.ts';
import { pageWords } from '../words/page-words.ts';
import type { Keeper } from './keep.ts';
import type { PlaceVault } from './stand-vault.ts';

/** Places of the socks that are being knitted, the present one first. */
export interface PlaceShelf {
  readonly places: readonly KnitPlace[];
  /** What could not be read; it is left where it is. */
  readonly unread: string | null;
  /** At once, at every step; false where the browser does not keep it. */
  put(place: KnitPlace): boolean;
  forget(id: string): void;
  /** Takes what the vault has of a later step: the browser had not written it yet when it was cut off. Whether there was any. */
  restore(): Promise<boolean>;
}

const LIST = 'stand', keyOf = (id: string): string => `stand.${id}`;
/** More pairs than anybody has on the go; the oldest goes. */
const MOST_PLACES = 24;

/** Each place has a key of its own, so that a step writes little and one that is damaged harms no other. */
export function openShelf(keeper: Keeper, vault: PlaceVault): PlaceShelf {
  let unread: string | null = null;
  /** How often a place was kept: of two copies the one kept more often is the later. */
  const revisions = new Map<string, number>(), forgotten = new Set<string>();
  const read = (id: string, text: string): KnitPlace | null => {
    const { place, problems } = readPlace(text, pageWords());
    if (place === null) unread = problems[0]?.message ?? '';
    else revisions.set(id, revisionOf(text));
    return place === null ? null : { ...place, id };
  };
  let places: readonly KnitPlace[] = readIds(keeper.read(LIST)).flatMap((id) => {
    const text = keeper.read(keyOf(id)) ?? '';
    return (text === '' ? null : read(id, text)) ?? [];
  });
  const writeList = (): boolean => {
    const before = keeper.read(LIST), own = places.filter(isKept).map(({ id }) => id);
    // What another window has begun, and what could not be read here, stays in the list.
    const others = readIds(before).filter((id) => !own.includes(id) && !forgotten.has(id)), ids = JSON.stringify([...own, ...others]);
    return ids === before || keeper.write(LIST, ids);
  };
  return {
    get places() { return places; },
    get unread() { return unread; },
    put: (place) => {
      places = [place, ...places.filter(({ id }) => id !== place.id)].slice(0, MOST_PLACES);
      if (!isKept(place)) return true;
      const revision = (revisions.get(place.id) ?? 0) + 1, text = JSON.stringify({ ...place, revision });
      revisions.set(place.id, revision);
      vault.put(place.id, text);
      return keeper.write(keyOf(place.id), text) && writeList();
    },
    forget: (id) => {
      places = places.filter((place) => place.id !== id);
      forgotten.add(id);
      vault.put(id, null);
      keeper.write(keyOf(id), '');
      writeList();
    },
    restore: async () => {
      const later = (await vault.readAll()).flatMap(([id, text]) => {
        const isLater = !forgotten.has(id) && revisionOf(text) > (revisions.get(id) ?? 0);
        return (isLater ? read(id, text) : null) ?? [];
      });
      if (later.length === 0) return false;
      const others = places.filter(({ id }) => later.every((place) => place.id !== id));
      places = [...later, ...others].sort((a, b) => (b.lastAt ?? '').localeCompare(a.lastAt ?? ''));
      for (const place of later) keeper.write(keyOf(place.id), JSON.stringify({ ...place, revision: revisions.get(place.id) }));
      writeList();
      return true;
    },
  };
}

/** Nothing to lose in a place that was only looked at. */
const isKept = (place: KnitPlace): boolean => isBegun(place) || place.startedAt !== null || place.notes.length > 0;

function revisionOf(text: string): number {
  try {
    const { revision } = Object(JSON.parse(text)) as { readonly revision?: unknown };
    return typeof revision === 'number' ? revision : 0;
  } catch { return 0; }
}

function readIds(text: string | null): readonly string[] {
  try {
    const ids: unknown = JSON.parse(text ?? '[]');
    return Array.isArray(ids) ? ids.filter((id): id is string => typeof id === 'string') : [];
  } catch { return []; }
}
