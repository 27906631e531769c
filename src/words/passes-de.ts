import type { PASSES_EN } from './passes-en.ts';

export const PASSES_DE: typeof PASSES_EN = {
  sections: {
    'cast-on': 'Anschlag', leg: 'Schaft', plain: 'Glatte Reihen', ankle: 'Knöchel', 'heel-in': 'Ferse, abnehmend', 'heel-level': 'Ferse, gleichbleibend',
    'heel-out': 'Ferse, zunehmend', foot: 'Fuß', toe: 'Spitze', 'toe-in': 'Spitze, abnehmend', 'toe-out': 'Spitze, zunehmend', closing: 'Schließen',
  },
  bed: { front: 'vordere Bett', back: 'hintere Bett' },
  side: { left: 'links', right: 'rechts' },
  passOf: (pass, passes) => `Reihe ${pass} von ${passes}`,
  castOn: 'Anschlagen',
  closing: 'Spitze schließen',
  crossing: (from, to, bed, stitches) => `Schlitten von ${from} nach ${to}: das ${bed} strickt ${stitches}`,
  bothBeds: 'beide Betten',
};
