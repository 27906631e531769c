import type { Room, RoomTools } from './rooms.ts';

export function createSheetRoom({ host }: RoomTools): Room {
  return { render: ({ planned }) => { host.textContent = planned?.plan.name ?? ''; } };
}
