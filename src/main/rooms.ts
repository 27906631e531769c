import type { PageState, RoomName, Settings } from '../panel/page-state.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { SockView } from '../view/sock-view-types.ts';
import { pageWords } from '../words/page-words.ts';
import type { GrowthDesk } from './growth-desk.ts';
import type { Keeper } from './keep.ts';
import type { PageStore } from './page-store.ts';
import type { SockDesk } from './sock-desk.ts';
import type { SockPicture } from './sock-picture.ts';

/** What a room gets to work with. */
export interface RoomTools {
  readonly host: HTMLElement;
  readonly store: PageStore;
  readonly keeper: Keeper;
  readonly view: SockView | null;
  readonly picture: SockPicture | null;
  /** The sock on the page as it hangs after any pass. */
  readonly growth: GrowthDesk;
  readonly deskOf: () => SockDesk;
  readonly choose: (change: Partial<Settings>) => void;
  /** On the beds and in the rooms that go through the work: after which pass. */
  readonly choosePass: (pass: number) => void;
  readonly openSock: (file: SockFile) => void;
  /** Poses the sock, and the one beside it, once more: either has been replaced. */
  readonly poseAgain: () => void;
}

/** A room of the page beside the sock's shape. Fetched and built when it is first entered. */
export interface Room {
  /** After every change while the room is shown. */
  render(state: PageState): void;
  /** The room has been left: nothing is to play or listen on. */
  leave?(): void;
  /** A file of the room's own kind has been opened or dropped. */
  openFile?(file: File): void;
}

export interface Rooms extends Room {
  /** The room takes a file; it is shown already. */
  openFileIn(name: OtherRoom, file: File): void;
}

type OtherRoom = Exclude<RoomName, 'shape'>;

/** Each in a file of its own, so that the page opens without them. */
const ROOMS: Readonly<Record<OtherRoom, () => Promise<(tools: RoomTools) => Room>>> = {
  passes: async () => (await import('./passes-room.ts')).createPassesRoom,
  lesson: async () => (await import('./lesson-room.ts')).createLessonRoom,
  chart: async () => (await import('./chart-room.ts')).createChartRoom,
  sheet: async () => (await import('./sheet-room.ts')).createSheetRoom,
  stand: async () => (await import('./stand-room.ts')).createStandRoom,
};
const NAMES = Object.keys(ROOMS) as OtherRoom[];

/** Shows the chosen room and hides the others. `page` carries the room's name as `data-room`, for the layout. */
export function createRooms(page: HTMLElement, hostOf: (name: OtherRoom) => HTMLElement, tools: Omit<RoomTools, 'host'>): Rooms {
  const built = new Map<OtherRoom, Room>();
  let shown: RoomName = 'shape';
  /** What is done in a room: at once where it is built, else as soon as it is. */
  const enter = (name: OtherRoom, act: (room: Room) => void): void => {
    const room = built.get(name);
    if (room !== undefined) { act(room); return; }
    ROOMS[name]().then((create) => {
      const fresh = built.get(name) ?? create({ ...tools, host: hostOf(name) });
      built.set(name, fresh);
      act(fresh);
    }, (error: unknown) => {
      const { title, what } = pageWords().page.roomFailed;
      tools.store.tell('room', title, what(String(error)));
    });
  };
  return {
    render: (state) => {
      const { room } = state.settings, before = shown;
      shown = room;
      page.dataset['room'] = room;
      for (const name of NAMES) hostOf(name).hidden = name !== room;
      if (before !== room && before !== 'shape') built.get(before)?.leave?.();
      // A room that is left may have put the page back as it found it.
      if (room !== 'shape') enter(room, (there) => { if (shown === room) there.render(tools.store.state()); });
    },
    openFileIn: (name, file) => { enter(name, (room) => { room.openFile?.(file); }); },
  };
}
