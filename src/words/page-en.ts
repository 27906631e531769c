/** The page's frame: rooms, bars, units. */
export const PAGE_EN = {
  rooms: { shape: 'Shape', passes: 'Passes', lesson: 'Lesson', chart: 'Chart', sheet: 'Sheet', stand: 'At the machine' },
  roomsLabel: 'Rooms of the page',
  title: 'Heelwright: plan a machine-knitted sock',
  toControls: 'To the controls',
  toRoom: 'To the room’s contents',
  strip: 'The plan, in the order of knitting',
  deck: 'About the sock',
  measures: 'Measures of the sock',
  yarnLabel: 'Yarn for one sock',
  yarn: 'Yarn',
  tolerance: 'How exact the gauge must be',
  care: 'Care',
  controls: 'Controls',
  bar: {
    undo: 'Undo', redo: 'Redo', save: 'Save', open: 'Open…', sockFile: 'Sock file', examples: 'Examples', examplesLabel: 'Open an example sock', swatches: 'Swatches…', sizes: 'Sizes…',
    unit: 'Unit of length', units: { cm: 'Centimetres', in: 'Inches' },
    settings: 'Settings',
  },
  settings: {
    title: 'Settings',
    language: 'Language of the page',
    languageNote: 'The page is built anew in the other language. The sock and all that is kept stay; steps to undo begin afresh.',
    languageKept: { title: 'The language stays as it is', what: 'The browser does not let the page keep anything, and in another language it is built anew: your sock would be lost. Save it to a file first, and open it in a browser that keeps things.' },
    needles: 'Needle numbers',
    needleNumbers: { middle: 'from the middle: L12, R3', left: 'from the left end: 1, 2, 3' },
    theme: 'Colours',
    themes: { auto: 'as the system', light: 'light', dark: 'dark' },
    motion: 'Motion follows the system: where it asks for less, the camera jumps and nothing plays by itself.',
  },
  /** Told to a screen reader after a change has settled. */
  told: {
    sock: (heelDepth: string, footLength: string, passes: number) => `heel ${heelDepth} deep, foot ${footLength} long, ${passes} passes`,
    change: (control: string, sock: string) => `${control}; ${sock}`,
    undone: (sock: string) => `The sock is changed: ${sock}`,
    canvas: (pose: string, sock: string) => `The sock ${pose}: ${sock}. Arrow keys turn it, plus and minus zoom, 0 shows all of it, C changes what its colours tell.`,
  },
};
