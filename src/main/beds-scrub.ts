import type { PageState, RoomName } from '../panel/page-state.ts';
import { shownLayer } from '../panel/cloth-layers.ts';
import type { GrowthDesk } from './growth-desk.ts';
import type { PageStore } from './page-store.ts';

/** The pass on the beds as a hand moves it: the growing sock at once, the pose with its numbers when the hand rests. */
export interface BedsScrub {
  choosePass(pass: number): void;
  render(state: PageState): void;
}

/** Milliseconds without a new pass after which the pose is made. */
const REST_MS = 250;

/** Rooms in whose picture the pose is seen: that of passes hangs the sock up itself, the others have no picture. */
const POSED: ReadonlySet<RoomName> = new Set<RoomName>(['shape', 'lesson', 'chart']);

export function createBedsScrub(store: PageStore, growth: GrowthDesk, poseAgain: () => void): BedsScrub {
  let scrubbed: number | null = null, isStale = false, timer: ReturnType<typeof setTimeout> | undefined;
  const isOnBeds = ({ settings: { pose, room } }: PageState): boolean => pose === 'beds' && POSED.has(room);
  /** Colours of numbers and a second sock are those of poses at rest: they wait for them. The lesson plays the growth itself, and then rests. */
  const canGrow = (state: PageState): boolean => isOnBeds(state) && state.settings.room !== 'lesson' && shownLayer(state) === 'yarn' && state.companion === null && state.problems.length === 0;
  const end = (): void => {
    scrubbed = null;
    clearTimeout(timer);
  };
  return {
    choosePass: (pass) => {
      if (!canGrow(store.state())) {
        store.update({ bedsPass: pass });
        if (isOnBeds(store.state())) poseAgain();
        else isStale ||= store.state().settings.pose === 'beds';
        return;
      }
      scrubbed = pass;
      growth.show(pass);
      store.update({ bedsPass: pass, posed: null, shape: { kind: 'relaxing', fraction: 0 } });
      clearTimeout(timer);
      timer = setTimeout(poseAgain, REST_MS);
    },
    render: (state) => {
      if (isStale && POSED.has(state.settings.room)) {
        isStale = false;
        poseAgain();
      }
      if (scrubbed === null) return;
      const isThere = state.posed?.part?.pass === scrubbed, hasFailed = state.shape.kind === 'none' || state.shape.kind === 'kept';
      if (isOnBeds(state) && !isThere && !hasFailed && state.bedsPass === scrubbed) return;
      end();
      // A room with a picture of its own has put it there already.
      if (POSED.has(state.settings.room)) growth.show(null);
    },
  };
}
