/** `pass 64`, `passes 64, 66 and 68`. */
const passesOf = (passes: readonly number[]): string =>
  (passes.length === 1 ? `pass ${passes[0]}` : `passes ${passes.slice(0, -1).join(', ')} and ${passes.at(-1) ?? ''}`);

/** What the chart's marks mean. */
const marks = {
  castOn: 'Cast-on', ribKnit: 'Rib, knit side out', purl: 'Rib, purl side out', held: 'Held: the needle waits with this loop', wrap: 'Wrapped with the working yarn',
  cornerLeft: 'Corner wrap, heel to the left', cornerRight: 'Corner wrap, heel to the right', gather: 'Moved across: rib gathered on one bed',
  turn: 'Turned onto the other bed', heelShift: 'Moved to the heel’s bed or back', moved: 'Moved across for the closing',
  decreaseLeft: 'Decrease: takes in the loop from the right', decreaseRight: 'Decrease: takes in the loop from the left',
  graft: 'Grafted', bindOff: 'Bound off', joined: 'Joined at the closing', seamLeft: 'Seam on its left', seamRight: 'Seam on its right',
};

/** What is said of one of them in a sentence about a stitch. */
const told: typeof marks = {
  castOn: 'cast on', ribKnit: 'rib, knit side out', purl: 'rib, purl side out', held: 'held', wrap: 'wrapped', cornerLeft: 'with the corner wrap', cornerRight: 'with the corner wrap',
  gather: 'then gathered on the other bed', turn: 'then turned onto the other bed', heelShift: 'then moved to or from the heel’s bed', moved: 'then moved across for the closing',
  decreaseLeft: 'two loops knitted together, leaning left', decreaseRight: 'two loops knitted together, leaning right', graft: 'graft', bindOff: 'bound off',
  joined: 'joined at the closing', seamLeft: 'at the seam', seamRight: 'at the seam',
};

/** The chart: stitches in a plane. */
export const CHART_EN = {
  marks,
  told,
  bed: { front: 'front bed', back: 'back bed' },
  part: { sock: 'Whole sock', heel: 'Heel', toe: 'Toe' },
  partLabel: 'Part of the sock',
  cut: { beds: 'Beds side by side', seam: 'Cut at the centre back' },
  cutLabel: 'Where the tube is cut open',
  tint: 'Yarn colours in the cells',
  progress: 'Shade what comes after this pass',
  zoomIn: 'Zoom in', zoomOut: 'Zoom out', fit: 'All of it',
  zoomLabel: 'Size of the chart',
  save: 'Save as SVG', print: 'Print',
  cellWidth: 'Cell on paper, mm',
  fitPage: 'On one page',
  paperLabel: 'On paper',
  legend: 'What the marks mean',
  threads: { held: 'Thin line: from a held loop to its next row', resting: 'Broken line: the bed rests, its loops wait', taken: 'Slanting line: a loop moved one needle inward' },
  waits: 'Held, wrapped: the mark stands on the loop that waits; its needle is held from a later pass on, mostly the next.',
  cornerLaid: (passes: readonly number[]) => `Corner wrap: its mark stands on the other bed’s last row; it is laid after ${passesOf(passes)}.`,
  stretch: (bed: string, carries: string) => `${bed}: ${carries}`,
  carries: { heel: 'heel', sole: 'sole', instep: 'instep' },
  ribBeds: 'leg: rib on both beds',
  arrow: 'Arrows: the way the carriage goes, as you stand before the machine.',
  outside: 'The chart shows the outside of the fabric, so needles of the back bed run from right to left.',
  numbers: 'Numbers at the sides are passes: two make a round, one at each side. Numbers above and below are needles.',
  applicationLabel: (part: string, name: string) => `Chart, ${part.toLowerCase()}: ${name}`,
  keys: 'Left and right arrow go along the course, up to the loop drawn through this one, down to the one it was drawn through. Page up and down go by passes, Home and End to the row’s ends, Enter picks the stitch and goes to its pass. Plus, minus and 0 zoom.',
  nothing: 'Point at a stitch, or walk with the arrow keys: here stands what it is. A click picks it and goes to its pass.',
  waiting: 'The chart comes with the first sock that can be knitted.',
  stitch: (section: string, pass: string, needle: string, bed: string) => `${section}: ${pass}needle ${needle}, ${bed}`,
  pass: (pass: number) => `pass ${pass}, `,
  from: (source: string) => `drawn through ${source}`,
  fromCastOn: (needle: string) => `the cast-on at ${needle}`,
  fromPass: (pass: number, needle: string) => `pass ${pass} at ${needle}`,
  and: ' and ',
  next: (pass: number) => `knitted next by pass ${pass}`,
  nextHeld: (pass: number, passes: number) => `knitted next by pass ${pass}, after waiting ${passes} ${passes === 1 ? 'pass' : 'passes'} in hold`,
  closed: 'closed at the end',
  heldFrom: (pass: number) => `held from pass ${pass} on`,
  wrapsLaid: (passes: readonly number[]) => `${passes.length === 1 ? 'one wrap lies' : `${passes.length} wraps lie`} round it, laid after ${passesOf(passes)}`,
  title: (name: string, part: string) => `${name}: chart, ${part.toLowerCase()}`,
  scale: (width: string, height: string, times: string) => `One stitch is ${width} x ${height} mm on paper, ${times} times the cloth’s.`,
  page: (page: number, pages: number) => `Page ${page} of ${pages}`,
  overlap: 'The shaded strip is on the next page too.',
};
