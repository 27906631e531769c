import type { Settings } from '../panel/page-state.ts';
import { isLessonFile } from './lesson-shelf.ts';
import type { PageStore } from './page-store.ts';
import type { Rooms } from './rooms.ts';

/** The ways into the lesson and out of it: while it lasts a sock of its own is on the table, and what concerns the person's is done outside it. */
export interface LessonWay {
  leave(): void;
  /** Something that is done with the person's own sock. */
  outside(act: () => void): () => void;
  /** Opens a file in the lesson if it is one; false if it is not. */
  takeFile(file: File): boolean;
}

export function createLessonWay(store: PageStore, choose: (change: Partial<Settings>) => void, roomsOf: () => Rooms): LessonWay {
  const leave = (): void => { if (store.state().settings.room === 'lesson') choose({ room: 'shape' }); };
  return {
    leave,
    outside: (act) => () => {
      leave();
      act();
    },
    takeFile: (file) => {
      if (!isLessonFile(file)) return false;
      choose({ room: 'lesson' });
      roomsOf().openFileIn('lesson', file);
      return true;
    },
  };
}
