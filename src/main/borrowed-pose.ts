import type { PoseName } from '../shape/pose.ts';
import type { RoomTools } from './rooms.ts';

/** The pose that a room shows while it is open, and the person's own one kept for afterwards, over a reload too. */
export interface BorrowedPose {
  /** Shows the beds, from the first call until it is given back. */
  borrow(): void;
  giveBack(): void;
}

const KEY = 'own-pose', POSES: readonly PoseName[] = ['flat', 'tube', 'beds', 'worn'];

export function createBorrowedPose({ store, keeper, choose }: Pick<RoomTools, 'store' | 'keeper' | 'choose'>): BorrowedPose {
  let own: PoseName | null = null;
  // The page is being drawn while a room is entered or left: the pose changes after that.
  const change = (pose: PoseName): void => { queueMicrotask(() => { if (store.state().settings.pose !== pose) choose({ pose }); }); };
  return {
    borrow: () => {
      if (own !== null) return;
      const { settings: { pose }, knitted } = store.state();
      // A page that begins in this room has the borrowed pose in its settings.
      own = pose === 'beds' && knitted === null ? POSES.find((name) => name === keeper.read(KEY)) ?? pose : pose;
      keeper.write(KEY, own);
      change('beds');
    },
    giveBack: () => {
      if (own !== null) change(own);
      own = null;
    },
  };
}
