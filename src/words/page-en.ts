/** The page's frame: rooms, bars, units. */
export const PAGE_EN = {
  rooms: { shape: 'Shape', passes: 'Passes', lesson: 'Lesson', chart: 'Chart', sheet: 'Sheet', stand: 'At the machine' },
  roomsLabel: 'Rooms of the page',
};
