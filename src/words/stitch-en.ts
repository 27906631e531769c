type StitchKindName = 'castOn' | 'knit' | 'purl' | 'wrap' | 'cornerWrap' | 'graft' | 'bindOff';

const kinds: Readonly<Record<StitchKindName, string>> = {
  castOn: 'Cast-on stitch', knit: 'Knit stitch', purl: 'Purl stitch', wrap: 'Wrap', cornerWrap: 'Corner wrap', graft: 'Graft stitch', bindOff: 'Bound-off stitch',
};

/** The card of the stitch that is picked, and the close look at the picture. */
export const STITCH_EN = {
  card: 'The picked stitch',
  kinds,
  place: (section: string, pass: number | null, round: string, needle: string, bed: string) =>
    `${section}${pass === null ? '' : `: pass ${pass}`}${round === '' ? '' : `, ${round}`}${pass === null ? ': ' : ', '}needle ${needle}, ${bed}`,
  round: (round: number, rounds: number) => `round ${round} of ${rounds}`,
  decrease: { left: 'A decrease, leaning left', right: 'A decrease, leaning right', upright: 'Takes in several stitches' },
  rows: { from: 'Drawn through', joins: 'Joins', host: 'Lies round', into: 'Through it', knitted: 'Knitted off by', wraps: 'Wrapped by', yarn: 'Yarn', metre: 'Yarn metre' },
  ref: (pass: number, needle: string) => (pass === 0 ? `cast-on at ${needle}` : `pass ${pass} at ${needle}`),
  refWrap: (pass: number, needle: string) => `wrap after pass ${pass}, ${needle}`,
  refClosing: (needle: string) => `closing at ${needle}`,
  nothingBelow: 'nothing: here the yarn begins the fabric',
  nothingAbove: 'nothing',
  waits: (passes: number) => (passes === 1 ? 'after one pass in hold' : `after ${passes} passes in hold`),
  metre: (at: string, whole: string) => `${at} of ${whole} m, from the cut end`,
  lengths: (length: number, lengths: number) => `length ${length} of ${lengths}`,
  measuring: 'being measured…',
  metreMissing: 'with the next shape at rest, off the beds',
  own: (length: string) => `${length} in this stitch`,
  letGo: 'Let the stitch go',
  close: 'Close up', toPass: 'Its pass', toChart: 'In the chart',
  closeTip: 'Show the stitch close', toPassTip: 'Go to the pass that knitted it', toChartTip: 'Show it in the chart',
  walk: 'Walk from stitch to stitch',
  steps: { 'yarn-back': 'Back along the yarn', 'yarn-on': 'On along the yarn', up: 'Up the wale', down: 'Down the wale' },
  keys: 'Arrow keys: left and right along the yarn, up and down the wale. Enter shows the stitch close, Escape lets it go.',
  look: {
    open: 'Look', label: 'Look closer, cut away, inside out',
    zoom: 'How close',
    steps: { whole: 'Whole sock', heel: 'Heel', toe: 'Toe', few: 'A few stitches', one: 'One stitch' },
    growsWhole: 'The growing sock is shown whole: come closer with the wheel or plus',
    pairWhole: 'Two socks beside each other are shown whole: lay them over each other, or come closer with the wheel or plus',
    cut: 'Cut away',
    cutWords: (percent: number) => (percent === 0 ? 'nothing' : `${percent} % of its breadth`),
    percent: (percent: number) => `${percent} %`,
    oneSide: 'one side off',
    insideOut: 'Inside out',
    drawn: { mesh: 'Knitted picture', blend: 'Between picture and yarn', yarn: 'Yarn, loop by loop' },
    detail: (level: string, pixels: string) => `${level}, ${pixels} pixels a stitch`,
  },
};
