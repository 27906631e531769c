import type { PAGE_EN } from './page-en.ts';

export const PAGE_DE: typeof PAGE_EN = {
  rooms: { shape: 'Form', passes: 'Reihen', lesson: 'Lektion', chart: 'Musterplan', sheet: 'Strickblatt', stand: 'An der Maschine' },
  roomsLabel: 'Räume der Seite',
};
