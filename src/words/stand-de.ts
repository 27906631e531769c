import type { STAND_EN } from './stand-en.ts';

export const STAND_DE: typeof STAND_EN = {
  place: {
    allowed: 'eine Standdatei (JSON)',
    notJson: 'Das ist keine Standdatei: Es ist kein JSON.',
    notPlace: 'Das ist keine Standdatei.',
    newer: 'Dieser Stand wurde von einer neueren Fassung der Seite gesichert. Die Seite neu laden oder die Datei dort öffnen, wo sie entstand.',
    wrongField: (field) => `„${field}“ in der Standdatei ist nicht lesbar.`,
    wholeNumber: 'eine ganze Zahl ab 0',
    notesAllowed: 'eine Liste von Notizen, jede mit stop und text',
  },
  anew: {
    asKnitted: (was) => (was === undefined ? 'wie gestrickt: nicht angegeben' : `wie gestrickt: ${JSON.stringify(was)}`),
    partsAtCastOn: (field) => `${field} ändert die Socke vom Anschlag an.`,
    parts: (field, pass, done) => `${field} ändert die Socke ab Reihe ${pass}, gestrickt sind aber schon ${done} Reihen.`,
  },
  typed: {
    beds: { front: ['vorn', 'vorne', 'v', 'vorderes bett'], back: ['hinten', 'h', 'hinteres bett'] },
    states: { empty: ['leer'], working: ['arbeit', 'arbeitet', 'arbeiten'], held: ['gehalten', 'halten'] },
    sides: { left: ['links'], right: ['rechts'] },
    all: ['alle'],
    none: ['keine', 'leer'],
    example: 'hinten: alle; vorn: L12-R12 arbeiten, 3 gehalten links, 4 gehalten rechts',
    nothing: 'Noch ist nichts eingegeben.',
    noBed: (part) => `„${part}“ beginnt nicht mit einem Bett: vorn: oder hinten:`,
    notRead: (clause) => `„${clause}“ ist nicht verständlich.`,
    noNeedle: (label) => `Eine Nadel ${label} hat diese Maschine nicht.`,
    beyond: (clause) => `„${clause}“ geht über das Ende des Bettes hinaus.`,
  },
  yarn: {
    field: (name) => name,
    tooLittle: (name, metres) => `${name} reicht nicht einmal für den kürzesten Schaft: Der braucht mit der Reserve ${metres} m.`,
  },
};
