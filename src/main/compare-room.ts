import { compareSocks } from '../choose/compare-socks.ts';
import type { SockComparison } from '../choose/comparison.ts';
import { shownLayer } from '../panel/cloth-layers.ts';
import { createCompareCard } from '../panel/compare-card.ts';
import type { PageState, Settings } from '../panel/page-state.ts';
import { checkSock } from '../plan/check-sock.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { client } from '../worker/client.ts';
import { openWorker } from '../worker/open-worker.ts';
import { createCompanionDesk } from './companion-desk.ts';
import { createCompanionPicture } from './companion-picture.ts';
import { createFileDoor } from './file-door.ts';
import { examples } from './first-sock.ts';
import type { Keeper } from './keep.ts';
import type { PageStore } from './page-store.ts';
import type { SockDesk } from './sock-desk.ts';
import type { SockPicture } from './sock-picture.ts';
import { suggestVariants, turnedDownTo, widestTurnDown } from './sock-variants.ts';

export interface CompareTools {
  readonly host: HTMLElement;
  readonly store: PageStore;
  readonly keeper: Keeper;
  readonly picture: SockPicture | null;
  readonly deskOf: () => SockDesk;
  readonly choose: (change: Partial<Settings>) => void;
  /** Another sock onto the page. */
  readonly openSock: (file: SockFile) => void;
}

/** The second sock: its card, its desk with a worker of its own, and its place in the picture. */
export interface CompareRoom {
  readonly parts: readonly { render(state: PageState): void }[];
  /** Another pose or pass is chosen. */
  poseAgain(): void;
  /** Keeps a sock to compare with, and turns to the page that compares. */
  compareWith(file: SockFile): void;
}

export function createCompareRoom({ host, store, keeper, picture, deskOf, choose, openSock }: CompareTools): CompareRoom {
  const desk = createCompanionDesk({ store, keeper, work: client(openWorker) });
  const door = createFileDoor(store, desk.keep);
  const compare = rememberComparison();
  const card = createCompareCard(host, {
    examples: examples(), compareWithExample: door.openExample, compareWithFile: door.openFile, compareWith: desk.keep, compare,
    keepThis: () => {
      const file = deskOf().knittable();
      if (file !== null) desk.keep(file);
    },
    swap: () => {
      const other = store.state().companion?.file ?? null, file = deskOf().knittable();
      if (other === null || file === null) return;
      desk.keep(file);
      openSock(other);
    },
    letGo: desk.letGo,
    arrange: (arrangement) => { choose({ arrangement }); }, chooseLayer: (layer) => { choose({ layer }); }, layerOf: shownLayer,
    variantsOf: (state) => {
      const file = fileOf(state);
      return state.planned === null || file === null ? [] : suggestVariants(file, state.planned.plan);
    },
    turnedDownTo: (state, width) => {
      const file = fileOf(state);
      return state.planned === null || file === null ? null : knittable(turnedDownTo(file, state.planned.plan, width));
    },
    widestTurnDown: ({ planned }) => (planned === null ? null : widestTurnDown(planned.plan)),
  });
  return { parts: [card, createCompanionPicture(store, picture)], poseAgain: desk.poseAgain, compareWith: (file) => { desk.keep(file); store.update({ tab: 'compare' }); } };
}

/** Of the last sock that could be knitted. */
function fileOf({ file, problems, knitted }: PageState): SockFile | null {
  return problems.length === 0 ? file : knitted?.file ?? null;
}

function knittable(file: SockFile): SockFile | null {
  return checkSock(file).file !== null && planSock(file).plan !== null ? file : null;
}

/** Compared once for each pair of socks and shapes: the page is drawn far more often. */
function rememberComparison(): (state: PageState) => SockComparison | null {
  let last: readonly unknown[] = [], comparison: SockComparison | null = null;
  return ({ knitted, posed, companion }) => {
    const other = companion?.knitted ?? null;
    if (knitted === null || other === null) return null;
    const second = companion?.posed ?? null, isPair = posed !== null && second !== null && posed.pose.name === second.pose.name && posed.pose.name !== 'beds';
    const key = [knitted, posed, other, second];
    if (key.every((part, place) => part === last[place])) return comparison;
    last = key;
    comparison = compareSocks(knitted, other, isPair ? [{ first: posed, second }] : []);
    return comparison;
  };
}
