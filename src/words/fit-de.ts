import { countIn } from './count-words.ts';
import type { FIT_EN } from './fit-en.ts';

export const FIT_DE: typeof FIT_EN = {
  label: 'Passform der Socke',
  putOn: 'Dem Fuß anziehen',
  makeItFit: 'Passend machen …',
  showPress: 'Zeigen, wo sie drückt',
  showGaps: 'Zeigen, wo sie absteht',
  howJudged: 'So wird geurteilt',
  limitsLabel: 'Was ein Modell sagen kann',
  limits: 'Ihre Maße an einem glatten Fuß ohne Knochen und Zehen, Gestrick von üblicher Steifheit, keine Reibung: ein Anhalt, keine Anprobe. Drücke sind als leicht oder fest zu nehmen, nicht als Zahlen. '
    + 'Eine einfache Socke ist kein medizinischer Strumpf: Bei Schwellungen, tauben Füßen, Diabetes oder schlechter Durchblutung ärztlichen Rat holen.',
  howToMeasure: 'So wird ein Fuß gemessen',
  signs: { good: 'Gut', mind: 'Zu beachten', poor: 'Zu ändern' },
  notYet: { title: 'Das lässt sich noch nicht stricken', detail: 'Angezogen wird eine Socke, die sich stricken lässt.', earlier: 'Die Antworten unten gehören zu einer früheren Socke.' },
  isPutOn: 'Wird dem Fuß angezogen …',
  question: { title: 'Passt sie?', detail: 'Am Fuß antwortet die Socke: ob sie über die Ferse geht, wo sie eng ist, ob die Zehen Platz haben.' },
  isPutOnAgain: 'Wird neu angezogen …',
  stale: { title: 'Die Socke ist inzwischen eine andere', detail: 'Die Antworten unten gehören zur Socke vor Ihrer Änderung.' },
  titles: { poor: 'Passt noch nicht', mind: 'Passt, mit etwas zu beachten', good: 'Passt' },
  onAverageFoot: (title) => `An einem durchschnittlichen Fuß: ${title.charAt(0).toLowerCase()}${title.slice(1)}`,
  counts: { poor: (count) => `${count} zu ändern`, mind: (count) => `${count} zu beachten`, good: (count) => `${count} gut` },
  questions: (count, counts) => `${countIn('de', count, 'Frage', 'Fragen')}: ${counts}.`,
  press: (mmHg, gapPercent) => `Ein Zwanzigstel des Gestricks drückt stärker als ${mmHg} mmHg; ${gapPercent} % davon stehen mehr als 2 mm von der Haut ab.`,
  measures: {
    lengthMm: 'Fußlänge', ballGirthMm: 'Ballenumfang', heelDiagonalMm: 'Ferse und Spann', ankleGirthMm: 'Fesselumfang', calfGirthMm: 'Wadenumfang', heelBreadthMm: 'Fersenbreite',
  },
  noMeasure: 'Kein Maß eines Fußes ist angegeben: Dies ist ein durchschnittlicher Fuß Erwachsener.',
  estimated: (measures) => `Nicht gemessen, also geschätzt: ${measures}.`,
  belowAdults: 'Die Schätzungen beruhen auf Füßen Erwachsener: Die eines Kindes sind daraus umgerechnet.',
  guide: {
    fromSide: 'Der Fuß von seiner Außenseite, mit den Maßbändern',
    fromAbove: 'Der Fuß von oben, mit den Maßbändern',
    caption: 'Von der Seite und von oben: Ihr Fuß, soweit seine Maße angegeben sind.',
  },
  close: 'Schließen',
};
