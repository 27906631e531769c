/** English words of the mode for the machine's stand. */
export const STAND_EN = {
  place: {
    allowed: 'a place file (JSON)',
    notJson: 'This is no place file: it is not JSON.',
    notPlace: 'This is no place file.',
    newer: 'This place was kept by a newer version of the page. Reload the page, or open the file where it was made.',
    wrongField: (field: string) => `The place file's ${field} cannot be read.`,
    wholeNumber: 'a whole number from 0',
    notesAllowed: 'a list of notes, each with stop and text',
  },
  anew: {
    asKnitted: (was: unknown) => (was === undefined ? 'as it was knitted: not given' : `as it was knitted: ${JSON.stringify(was)}`),
    partsAtCastOn: (field: string) => `${field} changes the sock from the cast-on.`,
    parts: (field: string, pass: number, done: number) => `${field} changes the sock from pass ${pass}, and ${done} passes are knitted.`,
  },
  typed: {
    beds: { front: ['front', 'f', 'front bed'], back: ['back', 'b', 'back bed'] },
    states: { empty: ['empty'], working: ['working', 'work', 'works'], held: ['held', 'hold'] },
    sides: { left: ['left'], right: ['right'] },
    all: ['all'],
    none: ['none', 'empty'],
    example: 'back: all; front: L12-R12 working, 3 held left, 4 held right',
    nothing: 'Nothing is typed yet.',
    noBed: (part: string) => `“${part}” does not begin with a bed: front: or back:`,
    notRead: (clause: string) => `“${clause}” is not understood.`,
    noNeedle: (label: string) => `There is no needle ${label} on this machine.`,
    beyond: (clause: string) => `“${clause}” goes beyond the end of the bed.`,
  },
  yarn: {
    field: (name: string) => name,
    tooLittle: (name: string, metres: number) => `${name} does not last even for the shortest leg: that takes ${metres} m, what is kept back included.`,
  },
};
