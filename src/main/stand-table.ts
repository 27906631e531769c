import type { PageState } from '../panel/page-state.ts';
import { DEFAULTS } from '../plan/defaults.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { beginPlace, isBegun, isPairDone, stepBack, stepOn } from '../sheet/knit-place.ts';
import type { KnitPlace } from '../sheet/knit-place.ts';
import { pageWords } from '../words/page-words.ts';
import type { Keeper } from './keep.ts';
import { openShelf } from './stand-keep.ts';
import type { PlaceVault } from './stand-vault.ts';
import { readStandSettings } from './stand-settings.ts';
import type { StandSettings } from './stand-settings.ts';
import { createWorkshop, isMirrored } from './stand-show.ts';
import type { StandWork } from './stand-show.ts';

/** The knitting under way: where it stands, what came before, and what is kept of it. */
export interface StandTable {
  place(): KnitPlace;
  places(): readonly KnitPlace[];
  work(): StandWork | null;
  name(): string;
  isBegun(): boolean;
  /** False at the end of the pair. */
  forward(): boolean;
  back(): void;
  /** Takes the last step, jump or change back; with none left, a step. */
  undo(): void;
  /** Another place of the same knitting: a jump, a note, a changed plan. */
  change(place: KnitPlace): void;
  /** Another knitting. */
  take(place: KnitPlace): void;
  start(file: SockFile): void;
  forget(id: string): void;
  /** A sock that is not begun follows the one on the panel. */
  follow(state: PageState): void;
  settings(): StandSettings;
  choose(change: Partial<StandSettings>): void;
  /** What the browser does not keep, in words. */
  warning(): string;
  /** A place of an earlier visit was there. */
  restored(): boolean;
}

/** Steps that can be taken back one by one. */
const MOST_UNDONE = 300;

/** `onRestored`: a later step than the browser had written was found. */
export function createStandTable(keeper: Keeper, vault: PlaceVault, onRestored: () => void): StandTable {
  const shelf = openShelf(keeper, vault), workOf = createWorkshop(), told = pageWords().stand.kept;
  let settings = readStandSettings(keeper.read('stand-settings')), isKeeping = true, panelFile: SockFile | null = null;
  const [kept] = shelf.places;
  let place: KnitPlace | null = kept ?? null, past: KnitPlace[] = [];
  let isRestored = kept !== undefined && isBegun(kept), isTouched = false;
  void shelf.restore().then((isLater) => { if (isLater) takeLatest(); });
  const takeLatest = (): void => {
    const [latest] = shelf.places;
    if (isTouched || latest === undefined) return;
    [place, isRestored] = [latest, true];
    onRestored();
  };
  const here = (): KnitPlace => {
    if (place === null) throw new Error('stand: no sock has come to the table');
    return place;
  };
  const put = (next: KnitPlace): void => {
    isTouched = true;
    place = next;
    isKeeping = shelf.put(next);
  };
  const change = (next: KnitPlace): void => {
    if (next === place) return;
    past = [...past.slice(-MOST_UNDONE), here()];
    put(next);
  };
  const take = (next: KnitPlace): void => {
    past = [];
    put(next);
  };
  const stops = (): number => work()?.items.length ?? 0;
  const work = (): StandWork | null => (place === null ? null : workOf(place.file, isMirrored(place)));
  return {
    place: here, places: () => shelf.places, work, name: () => here().file.name ?? DEFAULTS.name, isBegun: () => isBegun(here()),
    forward: () => {
      const isStep = !isPairDone(here(), stops());
      if (isStep) change(stepOn(here(), stops(), new Date().toISOString()));
      return isStep;
    },
    back: () => { change(stepBack(here(), stops())); },
    undo: () => { put(past.pop() ?? stepBack(here(), stops())); },
    change, take,
    start: (file) => { take(beginPlace(newId(shelf.places), file)); },
    forget: (id) => { shelf.forget(id); },
    follow: ({ file, problems, planned }) => {
      if (problems.length > 0 || planned === null || file === panelFile) return;
      panelFile = file;
      if (place === null || isBlank(place)) place = beginPlace(place?.id ?? newId(shelf.places), file);
    },
    settings: () => settings,
    choose: (chosen) => {
      settings = { ...settings, ...chosen };
      keeper.write('stand-settings', JSON.stringify(settings));
    },
    warning: () => (isKeeping ? shelf.unread === null ? '' : told.unread(shelf.unread) : told.failed),
    restored: () => isRestored,
  };
}

/** Nothing would be lost with it. */
const isBlank = (place: KnitPlace): boolean => !isBegun(place) && place.startedAt === null && place.notes.length === 0;

/** Unlike any that is kept; the clock tells two windows apart. */
function newId(places: readonly KnitPlace[]): string {
  const stem = Date.now().toString(36);
  let id = stem;
  for (let i = 1; places.some((place) => place.id === id); i++) id = `${stem}-${i}`;
  return id;
}
