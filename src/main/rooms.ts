import type { PageState, RoomName, Settings } from '../panel/page-state.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { SockView } from '../view/sock-view-types.ts';
import { createChartRoom } from './chart-room.ts';
import type { GrowthDesk } from './growth-desk.ts';
import type { Keeper } from './keep.ts';
import { createLessonRoom } from './lesson-room.ts';
import type { PageStore } from './page-store.ts';
import { createPassesRoom } from './passes-room.ts';
import { createSheetRoom } from './sheet-room.ts';
import type { SockDesk } from './sock-desk.ts';
import type { SockPicture } from './sock-picture.ts';
import { createStandRoom } from './stand-room.ts';

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
}

/** A room of the page beside the sock's shape. Built when it is first entered. */
export interface Room {
  /** After every change while the room is shown. */
  render(state: PageState): void;
  /** The room has been left: nothing is to play or listen on. */
  leave?(): void;
}

type OtherRoom = Exclude<RoomName, 'shape'>;

const ROOMS: Readonly<Record<OtherRoom, (tools: RoomTools) => Room>> = {
  passes: createPassesRoom, lesson: createLessonRoom, chart: createChartRoom, sheet: createSheetRoom, stand: createStandRoom,
};
const NAMES = Object.keys(ROOMS) as OtherRoom[];

/** Shows the chosen room and hides the others. `page` carries the room's name as `data-room`, for the layout. */
export function createRooms(page: HTMLElement, hostOf: (name: OtherRoom) => HTMLElement, tools: Omit<RoomTools, 'host'>): Room {
  const built = new Map<OtherRoom, Room>();
  let shown: RoomName = 'shape';
  const enter = (name: OtherRoom): Room => {
    const room = built.get(name) ?? ROOMS[name]({ ...tools, host: hostOf(name) });
    built.set(name, room);
    return room;
  };
  return {
    render: (state) => {
      const { room } = state.settings, before = shown;
      shown = room;
      page.dataset['room'] = room;
      for (const name of NAMES) hostOf(name).hidden = name !== room;
      if (before !== room && before !== 'shape') built.get(before)?.leave?.();
      if (room !== 'shape') enter(room).render(state);
    },
  };
}
