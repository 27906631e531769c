import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes } from './dom.ts';
import type { PageState, RoomName } from './page-state.ts';

export interface RoomTabs { render(state: PageState): void }

const ROOMS: readonly RoomName[] = ['shape', 'passes', 'lesson', 'chart', 'sheet', 'stand'];

/** The way from room to room. */
export function createRoomTabs(host: HTMLElement, choose: (room: RoomName) => void): RoomTabs {
  const { rooms, roomsLabel } = pageWords().page;
  const tabs = ROOMS.map((room) => ({ room, element: button(rooms[room], { class: 'room-tab', 'data-room': room }, () => { choose(room); }) }));
  host.append(el('nav', { class: 'room-tabs', 'aria-label': roomsLabel }, ...tabs.map(({ element }) => element)));
  return {
    render: ({ settings }) => {
      for (const { room, element } of tabs) setAttributes(element, { 'aria-current': room === settings.room ? 'page' : null });
    },
  };
}
