const STRETCH_ALOUD = 'against the size at rest. Blue: {less}, darkest at {low} and beyond. Pale grey: as at rest. Orange to brown: {more}, darkest at {high} and beyond.';
const DIFFERENCE_ALOUD = 'of the other sock against this. Purple: {less}, darkest at {low} and beyond. Pale grey: alike. Green: {more}, darkest at {high} and beyond.';

/** Of what the colours tell: at the bar's ends and in its middle; `aloud` for those who do not see it, `{low}` and `{high}` being its ends with their unit. */
const maps = {
  'stretch-width': { title: 'Stretch along the courses', less: 'narrower', middle: 'at rest', more: 'wider', aloud: `Stretch along the courses, ${STRETCH_ALOUD}` },
  'stretch-length': { title: 'Stretch along the wales', less: 'shorter', middle: 'at rest', more: 'longer', aloud: `Stretch along the wales, ${STRETCH_ALOUD}` },
  pressure: {
    title: 'Pressure on the skin', less: 'light', middle: '', more: 'high',
    aloud: 'Pressure on the skin. Cream: none. Rose to wine red: more, darkest at {high} and above. 10 mmHg and more is firm; medical compression begins at 14 (UK) or 18 (RAL) mmHg.',
  },
  gap: {
    title: 'Cloth stands off the skin', less: 'touches', middle: '', more: 'far off',
    aloud: 'How far the cloth stands off the skin. Cream: it lies on it. Green to deep sea green: it stands off, darkest at {high} and more.',
  },
  pass: {
    title: 'In which pass', less: 'cast-on', middle: '', more: 'last pass',
    aloud: 'In which pass each stitch was knitted. Sand: the cast-on. Bronze, then slate, then night blue: later, darkest at the last pass, {high}. Every second row is a shade darker.',
  },
  bed: { title: 'On which bed', less: 'front bed', middle: '', more: 'back bed', aloud: 'On which bed each stitch was knitted. Amber: {less}. Blue: {more}.' },
  longer: { title: 'The other sock, part by part', less: 'shorter', middle: 'alike', more: 'longer', aloud: `Length, part by part, ${DIFFERENCE_ALOUD}` },
  wider: { title: 'The other sock, each place taken all round', less: 'narrower', middle: 'alike', more: 'wider', aloud: `Width, each place taken all round, ${DIFFERENCE_ALOUD}` },
};

/** The picture: its buttons, its colours, how its shape stands, and the loop under the pointer. */
export const STAGE_EN = {
  label: 'The sock',
  canvas: 'The sock in its pose. Arrow keys turn it, plus and minus zoom, 0 shows all of it, C changes what its colours tell. 1 to 5 look closer, X cuts it away, I turns it inside out, Enter picks a stitch.',
  poseOf: 'Pose of the sock',
  poses: { flat: 'Laid flat', tube: 'Tube', beds: 'On the beds', worn: 'Worn' },
  viewOf: 'View of the sock',
  views: { side: 'Side', 'three-quarter': 'Turned', front: 'Front', back: 'Back', sole: 'Sole' },
  below: 'Below',
  zoomOut: 'Zoom out',
  zoomIn: 'Zoom in',
  reset: 'Reset',
  large: { name: 'Large picture', isOn: 'All of the page again', isOff: 'The picture alone' },
  relaxing: 'Relaxing',
  edgeOn: (words: string) => `${words}, seen edge on: as a tube it is round`,
  shape: {
    relaxing: (pose: string) => `The cloth is relaxing, ${pose}…`,
    kept: 'The last sock that can be knitted',
    poses: { flat: 'laid flat', tube: 'as a tube', beds: 'on the beds', worn: 'on a foot of your measures' },
    onAverageFoot: 'on an average foot',
    balance: (percent: string) => `forces are still ${percent} % out of balance`,
    farOut: 'forces are far out of balance',
    status: {
      converged: (pose: string, _out: string) => `At rest, ${pose}`,
      stalled: (pose: string, out: string) => `Not quite at rest, ${pose}: ${out}; measures are approximate`,
      budget: (pose: string, out: string) => `Not yet at rest, ${pose}: ${out}; measures are approximate`,
      cancelled: (pose: string, _out: string) => `Stopped before it came to rest, ${pose}`,
    },
  },
  pass: {
    slider: 'Pass', label: 'Pass shown on the beds', back: 'One pass back', on: 'One pass on',
    castOn: (passes: number) => `cast-on, before the first of ${passes} passes`,
    at: (pass: number, passes: number, section: string) => `pass ${pass} of ${passes}, ${section}`,
  },
  colours: 'Colours',
  foot: 'Foot',
  footLooks: { inside: 'in the sock', glass: 'seen through', hidden: 'left out' },
  layers: { yarn: 'Yarn', 'stretch-width': 'Width stretch', 'stretch-length': 'Length stretch', pass: 'Pass', bed: 'Bed', pressure: 'Pressure', gap: 'Gaps', longer: 'Longer or shorter', wider: 'Wider or narrower' },
  onlyWorn: 'when worn',
  notKnown: 'not known',
  onlyTwo: 'with a second sock',
  layerOff: (layer: string, why: string) => `${layer} (${why})`,
  legend: 'Legend',
  maps,
  scaleMarks: { firm: 'firm', medical: 'medical' },
  notAtRest: 'The cloth is not at rest yet',
  spread: (low: string, high: string, median: string) => `Nine tenths of the cloth: ${low} to ${high} %; median ${median} %`,
  pressure: { top: (mmHg: number) => `top about ${mmHg}`, ankle: (mmHg: number) => `ankle ${mmHg}`, most: (mmHg: number) => `a twentieth over ${mmHg}` },
  gaps: (percent: number, length: string) => `${percent} % of the cloth stands off by more than ${length}`,
  rowsShaded: 'Every second row is a shade darker, so that passes are told apart',
  bedSpread: (front: string, back: string) => `Knitted on the front bed: ${front} stitches; on the back bed: ${back}`,
  difference: (low: string, high: string) => `The other against this: ${low} to ${high}`,
  loop: {
    loop: 'Loop',
    at: (section: string, pass: number | null, needle: number, bed: 'front' | 'back', isDecrease: boolean) =>
      `${section}: ${pass === null ? '' : `pass ${pass}, `}needle ${needle} of the ${bed} bed${isDecrease ? ', two loops knitted together' : ''}`,
    stretch: (width: string, length: string) => `Stretch: width ${width} %, length ${length} %`,
    gap: (length: string) => `Stands off by ${length}`,
    pressure: (mmHg: string) => `Presses with ${mmHg} mmHg`,
    difference: (longer: string, wider: string) => `Against the first: ${longer} long here, ${wider} round`,
  },
  deck: { label: 'About the sock', tabs: { measures: 'Measures', fit: 'Fit', compare: 'Compare' } },
};
