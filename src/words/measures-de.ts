import { countIn } from './count-words.ts';
import type { MEASURES_EN } from './measures-en.ts';

const EMPTY = 'Auf ein Maß zeigen, um seine Linie zu sehen. „Nach Probe“ läuft am ungedehnten Gestrick entlang; eine leere Ferse zieht sich zusammen, ihre Linien sind dann kürzer.';

export const MEASURES_DE: typeof MEASURES_EN = {
  rows: {
    heelDepthMm: { name: 'Fersentiefe', means: 'Mitten über die Ferse, von ihrer ersten Reihe bis zu ihrer kürzesten.' },
    heelTipGirthMm: { name: 'Fersenumfang', means: 'Der kürzeste Weg um Fersenspitze und Spann: was über einen hohen Spann muss. Eine leere Ferse zieht sich zusammen, deshalb ist er kürzer als nach Probe; ein Fuß öffnet sie. Das Maßband läuft etwas tiefer um die Ferse und zeigt vielleicht mehr.' },
    heelDiagonalMm: { name: 'Markierte Schräge', means: 'Um den Spann, beide schrägen Kanten der Ferse hinab und über ihre kürzeste Reihe. Eine leere Ferse zieht sich zusammen, deshalb ist sie kürzer als nach Probe.' },
    footGirthMm: { name: 'Fußumfang', means: 'Um das mittlere Drittel des Fußes.' },
    footLengthMm: { name: 'Fußlänge', means: 'Von der Ferse bis ans Ende der Spitze.' },
    legLengthMm: { name: 'Schaftlänge', means: 'Seitlich am Schaft hinab.' },
    toeLengthMm: { name: 'Länge der Spitze', means: 'Von der letzten Runde des Fußes bis ans Ende.' },
    toeTipWidthMm: { name: 'Ende der Spitze', means: 'Quer über die letzte Runde.' },
    throatToHeelMm: { name: 'Spann bis Ferse', means: 'Gerade hindurch, von der Mitte des Spanns bis zur Fersenspitze.' },
    legFootAngleDeg: { name: 'Schaft zu Fuß', means: 'Der Winkel zwischen Schaft und Fuß; 180° ist eine gerade Linie.' },
  },
  invitations: {
    flat: EMPTY, tube: EMPTY,
    beds: 'Was an der Maschine hängt, ist von den Nadeln breit gezogen und wird nicht gemessen. „Nach Probe“ läuft am ungedehnten Gestrick der fertigen Socke entlang.',
    worn: 'Auf ein Maß zeigen, um seine Linie zu sehen. „Getragen“ ist an einem glatten Fuß mit Ihren Maßen: ein Anhalt, wie weit die Socke nachgeben muss, keine Anprobe.',
  },
  poses: { flat: 'flach gelegt', tube: 'als Schlauch', beds: 'auf den Betten', worn: 'getragen' },
  byGauge: 'nach Probe',
  byGaugeMeans: 'Am Gestrick entlang, bevor es sich dehnt: Anzahl mal Maschenprobe',
  yourFoot: 'Ihr Fuß',
  unit: { cm: 'cm', in: 'Zoll' },
  smallUnit: { cm: 'mm', in: 'Zoll' },
  yarn: {
    forOne: 'für eine Socke', metres: 'Meter', grams: 'Gramm', together: 'Zusammen',
    byRule: 'nach Regel', alongLoops: 'in Maschen',
    said: (percent, pose) => (percent === 0 ? `Entlang ihrer Maschen gemessen (${pose}), braucht die Socke, was die Lehrbuchregel sagt.`
      : `Entlang ihrer Maschen gemessen (${pose}), braucht die Socke ${Math.abs(percent)} % ${percent > 0 ? 'mehr' : 'weniger'} als nach der Lehrbuchregel.`),
    waiting: 'Das Garn wird entlang der Maschen gemessen, sobald die Form ruht.',
    choosePose: 'Gemessen wird entlang der Maschen einer Socke in Ruhe, ohne Maschine und ohne Fuß: Wählen Sie über dem Bild Flach oder Schlauch.',
    more: 'Wohin es geht, und warum beide sich unterscheiden',
    parts: { loops: 'Maschen', wraps: 'Wickel', castOn: 'Anschlag', seam: 'Naht', graft: 'Maschenstich', bindOff: 'Abketten', tails: (lengths) => `Enden, ${countIn('de', lengths, 'Faden', 'Fäden')}` },
    why: [
      'Die Regel (nach Munden) nimmt die Maschenlänge aus Ihrer Maschenprobe, als wäre alles Gestrick glatt und völlig entspannt. Die Maschen im Bild folgen der Form: mancherorts gedehnt, anderswo zusammengeschoben.',
      'Eine zweite veröffentlichte Formel (nach Peirce) macht dieselbe Masche bei 30 × 42 um etwa 14 % kürzer: Die Wahrheit kann dazwischen liegen. Wo das Garn knapp ist, stricken Sie eine Probe und wiegen Sie sie.',
    ],
  },
  tolerance: {
    title: 'Wenn die Maschenprobe nicht ganz stimmt',
    names: { footGirthMm: 'Fußumfang', footLengthMm: 'Fußlänge', heelDepthMm: 'Fersentiefe', heelDiagonalMm: 'Markierte Schräge', legLengthMm: 'Schaftlänge' },
    stitches: (count) => (count === 0.5 ? 'eine halbe Masche' : countIn('de', count, 'Masche', 'Maschen')),
    rows: (count) => countIn('de', count, 'Reihe', 'Reihen'),
    means: (stitches, rows) => `So weit daneben liegt die Socke mit denselben Zahlen, wenn auf 10 cm ${stitches} oder ${rows} mehr oder weniger kommen als geplant. Weniger machen sie größer.`,
  },
  cautions: 'Zu beachten bei dieser Socke',
  care: 'Vorsicht an der Maschine und beim Tragen',
  careNotes: [
    'Ein Bund, der Abdrücke hinterlässt, ist zu eng. Bei Schwellungen, tauben Füßen, Diabetes oder schlechter Durchblutung vor dem Tragen ärztlichen Rat holen und keinen Wulst an der Spitze stricken.',
    'Socken rutschen auf glatten Böden.',
    'Nadelhaken und Zungen sind scharf; Finger vom Schlitten fernhalten und Gewichte so hängen, dass sie nicht auf Füße fallen.',
  ],
};
