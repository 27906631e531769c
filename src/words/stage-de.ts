import type { STAGE_EN } from './stage-en.ts';

const STRETCH_ALOUD = 'gegen die Größe in Ruhe. Blau: {less}, am dunkelsten bei {low} und darüber hinaus. Blassgrau: wie in Ruhe. Orange bis Braun: {more}, am dunkelsten bei {high} und darüber hinaus.';
const DIFFERENCE_ALOUD = 'der anderen Socke gegen diese. Violett: {less}, am dunkelsten bei {low} und darüber hinaus. Blassgrau: gleich. Grün: {more}, am dunkelsten bei {high} und darüber hinaus.';

export const STAGE_DE: typeof STAGE_EN = {
  label: 'Die Socke',
  canvas: 'Die Socke in ihrer Lage. Pfeiltasten drehen sie, Plus und Minus zoomen, 0 zeigt sie ganz, C wechselt, was ihre Farben sagen.',
  poseOf: 'Lage der Socke',
  poses: { flat: 'Flach', tube: 'Schlauch', beds: 'Auf den Betten', worn: 'Getragen' },
  viewOf: 'Ansicht der Socke',
  views: { side: 'Seite', 'three-quarter': 'Schräg', front: 'Vorn', back: 'Hinten', sole: 'Sohle' },
  below: 'Unten',
  zoomOut: 'Verkleinern',
  zoomIn: 'Vergrößern',
  reset: 'Zurück',
  large: { name: 'Großes Bild', isOn: 'Wieder die ganze Seite', isOff: 'Nur das Bild' },
  relaxing: 'Das Gestrick kommt zur Ruhe',
  edgeOn: (words) => `${words}, von der Kante gesehen: als Schlauch ist sie rund`,
  shape: {
    relaxing: (pose) => `Das Gestrick kommt zur Ruhe, ${pose} …`,
    kept: 'Die letzte Socke, die sich stricken lässt',
    poses: { flat: 'flach gelegt', tube: 'als Schlauch', beds: 'auf den Betten', worn: 'an einem Fuß mit Ihren Maßen' },
    onAverageFoot: 'an einem durchschnittlichen Fuß',
    balance: (percent) => `die Kräfte weichen noch um ${percent} % vom Gleichgewicht ab`,
    farOut: 'die Kräfte sind weit vom Gleichgewicht',
    status: {
      converged: (pose) => `In Ruhe, ${pose}`,
      stalled: (pose, out) => `Nicht ganz in Ruhe, ${pose}: ${out}; die Maße sind ungefähr`,
      budget: (pose, out) => `Noch nicht in Ruhe, ${pose}: ${out}; die Maße sind ungefähr`,
      cancelled: (pose) => `Angehalten, bevor sie zur Ruhe kam, ${pose}`,
    },
  },
  pass: {
    slider: 'Reihe', label: 'Reihe, die auf den Betten gezeigt wird', back: 'Eine Reihe zurück', on: 'Eine Reihe weiter',
    castOn: (passes) => `Anschlag, vor der ersten von ${passes} Reihen`,
    at: (pass, passes, section) => `Reihe ${pass} von ${passes}, ${section}`,
  },
  colours: 'Farben',
  foot: 'Fuß',
  footLooks: { inside: 'in der Socke', glass: 'durchsichtig', hidden: 'weggelassen' },
  layers: { yarn: 'Garn', 'stretch-width': 'Dehnung quer', 'stretch-length': 'Dehnung längs', pressure: 'Druck', gap: 'Abstand', longer: 'Länger oder kürzer', wider: 'Weiter oder enger' },
  onlyWorn: 'nur getragen',
  notKnown: 'nicht bekannt',
  onlyTwo: 'mit zweiter Socke',
  layerOff: (layer, why) => `${layer} (${why})`,
  legend: 'Legende',
  maps: {
    'stretch-width': { title: 'Dehnung längs der Maschenreihen', less: 'schmaler', middle: 'in Ruhe', more: 'weiter', aloud: `Dehnung längs der Maschenreihen, ${STRETCH_ALOUD}` },
    'stretch-length': { title: 'Dehnung längs der Maschenstäbchen', less: 'kürzer', middle: 'in Ruhe', more: 'länger', aloud: `Dehnung längs der Maschenstäbchen, ${STRETCH_ALOUD}` },
    pressure: {
      title: 'Druck auf die Haut', less: 'leicht', middle: '', more: 'hoch',
      aloud: 'Druck auf die Haut. Creme: keiner. Rosa bis Weinrot: mehr, am dunkelsten bei {high} und darüber. Ab 10 mmHg ist er fest; medizinische Kompression beginnt bei 14 (UK) oder 18 (RAL) mmHg.',
    },
    gap: {
      title: 'Das Gestrick steht von der Haut ab', less: 'liegt an', middle: '', more: 'weit ab',
      aloud: 'Wie weit das Gestrick von der Haut absteht. Creme: Es liegt an. Grün bis tiefes Seegrün: Es steht ab, am dunkelsten bei {high} und mehr.',
    },
    longer: { title: 'Die andere Socke, Stück für Stück', less: 'kürzer', middle: 'gleich', more: 'länger', aloud: `Länge, Stück für Stück, ${DIFFERENCE_ALOUD}` },
    wider: { title: 'Die andere Socke, jede Stelle ringsum', less: 'enger', middle: 'gleich', more: 'weiter', aloud: `Weite, jede Stelle ringsum, ${DIFFERENCE_ALOUD}` },
  },
  scaleMarks: { firm: 'fest', medical: 'medizinisch' },
  notAtRest: 'Das Gestrick ist noch nicht in Ruhe',
  spread: (low, high, median) => `Neun Zehntel des Gestricks: ${low} bis ${high} %; Median ${median} %`,
  pressure: { top: (mmHg) => `am Bund etwa ${mmHg}`, ankle: (mmHg) => `am Knöchel ${mmHg}`, most: (mmHg) => `ein Zwanzigstel über ${mmHg}` },
  gaps: (percent, length) => `${percent} % des Gestricks stehen mehr als ${length} ab`,
  difference: (low, high) => `Die andere gegen diese: ${low} bis ${high}`,
  loop: {
    loop: 'Masche',
    at: (section, pass, needle, bed, isDecrease) =>
      `${section}: ${pass === null ? '' : `Reihe ${pass}, `}Nadel ${needle} des ${bed === 'front' ? 'vorderen' : 'hinteren'} Betts${isDecrease ? ', zwei Maschen zusammengestrickt' : ''}`,
    stretch: (width, length) => `Dehnung: quer ${width} %, längs ${length} %`,
    gap: (length) => `Steht ${length} ab`,
    pressure: (mmHg) => `Drückt mit ${mmHg} mmHg`,
    difference: (longer, wider) => `Gegen die erste: hier ${longer} in der Länge, ${wider} ringsum`,
  },
  deck: { label: 'Über die Socke', tabs: { measures: 'Maße', fit: 'Passform', compare: 'Vergleich' } },
};
