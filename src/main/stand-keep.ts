import { isBegun, readPlace, writePlace } from '../sheet/knit-place.ts';
import type { KnitPlace } from '../sheet/knit-place.ts';
import { pageWords } from '../words/page-words.ts';
import type { Keeper } from './keep.ts';

/** Places of the socks that are being knitted, the present one first. */
export interface PlaceShelf {
  readonly places: readonly KnitPlace[];
  /** What could not be read; it is left where it is. */
  readonly unread: string | null;
  /** At once, at every step; false where the browser does not keep it. */
  put(place: KnitPlace): boolean;
  forget(id: string): void;
}

const LIST = 'stand', keyOf = (id: string): string => `stand.${id}`;
/** More pairs than anybody has on the go; the oldest goes. */
const MOST_PLACES = 24;

/** Each place has a key of its own, so that a step writes little and one that is damaged harms no other. */
export function openShelf(keeper: Keeper): PlaceShelf {
  const words = pageWords();
  let unread: string | null = null;
  let places: readonly KnitPlace[] = readIds(keeper.read(LIST)).flatMap((id) => {
    const text = keeper.read(keyOf(id));
    if (text === null || text === '') return [];
    const { place, problems } = readPlace(text, words);
    if (place === null) unread = problems[0]?.message ?? '';
    return place === null ? [] : [place];
  });
  const forgotten = new Set<string>();
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
      return keeper.write(keyOf(place.id), writePlace(place)) && writeList();
    },
    forget: (id) => {
      places = places.filter((place) => place.id !== id);
      forgotten.add(id);
      keeper.write(keyOf(id), '');
      writeList();
    },
  };
}

/** Nothing to lose in a place that was only looked at. */
const isKept = (place: KnitPlace): boolean => isBegun(place) || place.startedAt !== null || place.notes.length > 0;

function readIds(text: string | null): readonly string[] {
  try {
    const ids: unknown = JSON.parse(text ?? '[]');
    return Array.isArray(ids) ? ids.filter((id): id is string => typeof id === 'string') : [];
  } catch { return []; }
}
