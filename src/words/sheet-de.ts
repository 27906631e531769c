import type { Bed, FootSide, YarnStart } from '../plan/sock-file.ts';
import type { Side } from '../plan/step.ts';
import type { SHEET_EN } from './sheet-en.ts';

const bed: Readonly<Record<Bed, string>> = { front: 'vorderes Bett', back: 'hinteres Bett' };
const bedShort: Readonly<Record<Bed, string>> = { front: 'vorn', back: 'hinten' };
const theBed: Readonly<Record<Bed, string>> = { front: 'das vordere Bett', back: 'das hintere Bett' };
const atBed: Readonly<Record<Bed, string>> = { front: 'dem vorderen Bett', back: 'dem hinteren Bett' };
const fromBed: Readonly<Record<Bed, string>> = { front: 'vom vorderen Bett', back: 'vom hinteren Bett' };
const ofBed: Readonly<Record<Bed, string>> = { front: 'des vorderen Betts', back: 'des hinteren Betts' };
const onto: Readonly<Record<Bed, string>> = { front: 'auf das vordere Bett', back: 'auf das hintere Bett' };
const side: Readonly<Record<Side, string>> = { left: 'links', right: 'rechts' };
const end: Readonly<Record<Side, string>> = { left: 'Am linken Ende', right: 'Am rechten Ende' };
const foot: Readonly<Record<FootSide, string>> = { left: 'linke', right: 'rechte' };
const start: Readonly<Record<YarnStart, string>> = { leg: 'Schaft', ankle: 'Knöchel', heel: 'Ferse', foot: 'Fuß', toe: 'Spitze' };
const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;
const rows = (n: number): string => count(n, 'Reihe', 'Reihen');
const rounds = (n: number): string => count(n, 'Runde', 'Runden');
const stitches = (n: number): string => count(n, 'Masche', 'Maschen');

const cautions: Readonly<Record<string, (value: string) => string>> = {
  'foot.shoeSize': (value) => `Die Fußlänge, etwa ${value}, kommt aus einer Schuhgröße, und Hersteller weichen um eine halbe Größe und mehr ab: möglichst den Fuß messen.`,
  'foot.calfGirthMm': (value) => `Der obere Rand muss sich für ein Bein von ${value} weit dehnen und kann eng sitzen: mehr Maschen oder ein kürzerer Schaft helfen. Bei geschwollenen oder tauben Beinen, Diabetes oder Durchblutungsstörungen vorher ärztlichen Rat holen.`,
  'foot.ankleGirthMm': (value) => `Der Knöchel muss sich für ${value} weit dehnen und kann eng sitzen: mehr Maschen helfen. Bei geschwollenen oder tauben Beinen, Diabetes oder Durchblutungsstörungen vorher ärztlichen Rat holen.`,
  'foot.heelDiagonalMm': (value) => `Die Ferse muss sich für ${value} um Ferse und Spann weit dehnen: weniger Maschen in der kürzesten Reihe oder gerade Reihen machen sie tiefer.`,
  'foot.ballGirthMm': (value) => `Der Fuß der Socke passt schlecht zu einem Ballen von ${value}: er sitzt eng oder wirft im Schuh Falten.`,
  'heel.stitches': (value) => `Die Ferse von ${value} Maschen reicht über die Enden des anderen Betts hinaus: die Maschen an ihren Ecken einzeln und ohne Gewicht abgleiten lassen, den Faden dort danach einziehen.`,
  'counts.footPasses': (value) => `Die von Hand gesetzten ${value} Reihen des Fußes verfehlen die gewünschte Länge.`,
  'toe.closing': () => 'Eine abgekettete Spitze gibt einen kleinen Wulst über den Zehen; bei tauben oder geschwollenen Füßen lieber im Maschenstich schließen.',
};

/** The knitting sheet in German. A pass is a Reihe, since the counter counts it so. */
export const SHEET_DE: typeof SHEET_EN = {
  decimalMark: ',', bed, bedShort, side, cautions,
  counter: 'Zähler', carriage: 'Schlitten', pass: 'Reihe', carriageShort: 'nach', fromTo: (from, to) => `${from} bis ${to}`, sides: (from, to) => `${side[from]}–${side[to]}`,
  titles: {
    sock: 'Die Socke', materials: 'Material', swatch: 'Probe', care: 'Vorsicht', glance: 'Auf einen Blick', castOn: 'Anschlag', leg: 'Schaft', turn: 'Sammeln und Wenden', ankle: 'Knöchel',
    heel: 'Ferse', foot: 'Fuß', toe: 'Spitze', closing: 'Schließen', finish: 'Nähen, Waschen', other: 'Die andere Socke', sizes: 'Größen',
  },
  subtitle: (of, round, passes) => `Strickblatt für die ${foot[of]} Socke: ${round} Maschen rundum, ${rows(passes)}`,

  footFacts: 'Fuß', gaugeFacts: 'Maschenprobe', stitchFacts: 'Maschen', machineFacts: 'Maschine', needleFacts: 'Nadeln in Arbeit',
  footOf: (of, length, girth) => [`${foot[of]}r Fuß`, ...(length === null ? [] : [`${length} lang`]), ...(girth === null ? [] : [`${girth} um den Ballen`])].join(', '),
  gaugeOf: (across, down, unit) => `${across} Maschen und ${down} Maschenreihen auf ${unit === 'cm' ? '10 cm' : '1 Zoll'}, gewaschen und geruht`,
  stitchesOf: (round, onBed, heel, turnDown, tip) => `${round} rundum, ${onBed} je Bett; Ferse auf ${heel}, verkürzt auf ${turnDown}; Spitze bis ${tip} je Bett`,
  machineOf: (needles, pitch, numbers) => `zwei Betten zu ${needles} Nadeln im Abstand von ${pitch} mm; ${numbers === 'middle'
    ? 'Nadeln von der Bettmitte aus gezählt, L nach links und R nach rechts' : 'Nadeln vom linken Ende des Betts aus gezählt'}`,
  needlesOf: (from, to) => `${from} bis ${to}`,
  legSpan: 'Schaft', tubeSpan: 'Schlauch', heelSpan: 'Ferse',
  bothBeds: (needles) => `${needles} auf beiden Betten`,
  onBed: (needles, of) => `${needles} auf ${atBed[of]}`,

  yarnHead: ['Garn', 'für', 'Socke, m', 'Socke, g', 'Paar, m', 'Paar, g'], start, together: 'Zusammen', yarnsCaption: 'Garn für eine Socke und für das Paar',
  yarnNote: (tail) => `Geschätzt aus der Zahl der Maschen, mit Naht, Schließen und Enden von ${tail}: ein Zehntel mehr bereithalten.`,
  tools: 'Dazu: Anschlagkamm und Gewichte, zwei kleine Gewichte für die Ferse, Deckernadeln zum Umhängen, Reihenzähler, stumpfe Stopfnadel, Faden zum Markieren.',

  swatchHow: (gauge) => `Gebraucht: ${gauge}. Die Probe wie den Fuß stricken, um die Hälfte breiter als das, was gezählt wird. Waschen und trocknen wie die Socke, einen Tag flach und ungespannt ruhen lassen, in der Mitte zählen.`,
  swatchElse: 'Weicht sie ab, die eigene in den Plan eintragen: alle Zahlen unten folgen aus ihr.',
  swatchCaption: 'Gezählte Proben', swatchHead: ['Maschen', 'auf', 'Reihen', 'auf', 'Zustand', 'Maschen', 'Reihen'], washed: 'gewaschen', unwashed: 'noch ungewaschen',
  per: { cm: 'auf 10 cm', in: 'auf 1 in' },

  care: [
    'Nadelhaken und Zungen sind scharf. Gewichte so hängen, dass sie nicht auf Füße fallen; Finger weg vom Schlitten, Kinder auf Abstand.',
    'Bei Schwellungen, tauben Füßen, Diabetes oder Durchblutungsstörungen enge Bündchen, Wülste und Falten an den Zehen meiden und ärztlichen Rat holen. Tiefe Abdrücke: zu eng. Dies ist keine Kompressionssocke.',
    'Socken ohne Schuhe rutschen auf glatten Böden; Noppen unter der Sohle helfen.',
  ],

  glanceCaption: 'Abschnitte der Reihe nach', glanceHead: ['Abschnitt', 'Reihen', 'ergibt', 'Zähler', 'Schlitten', 'Maschen je Reihe'],
  rows, rounds,
  glanceNote: 'Jede Fahrt des Schlittens zählt als Reihe, zwei Reihen sind eine Runde. Zähler nach dem Anschlag auf 0. Zähler und Schlitten: am Anfang und am Ende des Abschnitts.',
  changesCaption: 'Garnwechsel', changesHead: ['Reihen', 'Garn', 'ansetzen'],
  changesNote: (tail) => `Bei jedem Wechsel abschneiden, ${tail} hängen lassen, den nächsten Faden beim Schlitten ansetzen. 0 ist der Anschlag.`,

  castOnCaption: 'Nadeln für den Anschlag', castOnHead: ['Bett', 'von', 'bis', 'Nadeln', 'Maschen'], everyNeedle: 'jede', everySecond: 'jede zweite',
  castOnRow: (o) => `${stitches(o.stitches)} für 1x1-Rippen anschlagen, abwechselnd auf beiden Betten, von ${o.first} auf ${atBed[o.firstBed]} bis ${o.last} auf ${atBed[o.lastBed]}. Der Schlitten steht danach mit dem Faden ${side[o.carriage]}.`,
  castOnRing: (o) => `${stitches(o.stitches)} rund anschlagen: auf ${atBed[o.firstBed]} von ${o.first} bis ${o.turn}, dann auf dem anderen Bett zurück bis ${o.last}. Der Schlitten steht danach mit dem Faden ${side[o.carriage]}.`,
  castOnWeight: 'Den Kamm in die ganze Anschlagreihe hängen und gleichmäßig beschweren, gerade so viel, dass jede Masche sauber abgleitet; die Gewichte mit dem Gestrick nachhängen. Zähler auf 0.',

  legFlat: (passes) => `${rows(passes)} 1x1-Rippen stricken, beide Betten zugleich: jede Fahrt ist eine Reihe.`,
  legTube: (passes, first) => `${rows(passes)} glatt stricken, das sind ${rounds(passes / 2)}: zuerst ${theBed[first]}, dann abwechselnd.`,

  gather: (moves, from, to) => `Sammeln: Gewicht abnehmen und die ${stitches(moves)} ${ofBed[from]} gerade hinüber auf die leeren Nadeln gegenüber umhängen, ${onto[to]}.`,
  plainRows: (passes, of, onBed, from, to) => `${count(passes, 'glatte Reihe', 'glatte Reihen')} nur auf ${atBed[of]} stricken, je ${stitches(onBed)}: Zähler ${from} bis ${to}.`,
  turn: (moves, from, to, onBed) => `Wenden: die äußeren Viertel ${ofBed[from]}, ${stitches(moves)}, ${onto[to]} umhängen, so dass ${onBed} Maschen ${onBed} gegenüberstehen und die Kanten in der Mitte ${ofBed[to]} zusammenstoßen: dort ist die hintere Mitte.`,
  turnRule: (at, first, second, last) => `${end[at]}: ${first[0]} auf ${first[1]}${second === null ? '' : `, ${second[0]} auf ${second[1]}`}, und so fort bis ${last[0]} auf ${last[1]}.`,
  turnYarn: (tail, at) => `Faden abschneiden, ${tail} hängen lassen, ${side[at]} beim Schlitten neu ansetzen. Das Gewicht wieder einhängen, in beide Lagen.`,
  gatherCaption: (from, to) => `Sammeln: ${fromBed[from]} ${onto[to]}`,
  turnCaption: (from, to) => `Wenden: ${fromBed[from]} ${onto[to]}`,
  fromHead: 'von', toHead: 'auf',

  tube: (passes, first) => `${rows(passes)} Schlauch stricken, das sind ${rounds(passes / 2)}: zuerst ${theBed[first]}, dann abwechselnd.`,
  shiftTo: (heel, beyond, to) => `Die Ferse ist breiter als die Hälfte: vor den letzten zwei Reihen an jedem Ende ${stitches(beyond)} ${onto[to]} umhängen, das dann ${heel} trägt.`,
  shiftFrom: (beyond, to) => `Vor den ersten zwei Reihen an jedem Ende ${stitches(beyond)} wieder ${onto[to]} umhängen, die äußersten zuerst.`,
  shiftCaption: (from, to) => `Umgehängte Maschen: ${fromBed[from]} ${onto[to]}`, beforePass: 'vor Reihe',

  heelRests: (knits, rests) => `Nur ${theBed[knits]} strickt die Ferse; ${theBed[rests]} ruht mit seinen Maschen.`,
  toeRests: (knits, rests) => `Die Spitze wird wie eine Ferse auf ${atBed[knits]} gestrickt, verkürzt und wieder verlängert; ${theBed[rests]} ruht mit seinen Maschen.`,
  heelWeight: 'Kleine Gewichte nahe beiden Enden der kurzen Reihen, alle paar Reihen nachhängen.',
  turningDown: (passes, from, to, hasWraps) => `Verkürzen, ${rows(passes)}, Maschen von ${from} bis ${to}: vor jeder Reihe die genannte Nadel, gegenüber dem Schlitten, nach vorn schieben und halten; ${hasWraps
    ? 'nach der Reihe den Faden um sie legen (umwickeln).' : 'es wird nichts umwickelt, an jeder Wende bleibt ein kleines Loch.'}`,
  level: (passes, onBed, from, to) => `Gerade: ${rows(passes)} über dieselben ${stitches(onBed)}, keine Nadel bewegt, nichts umwickelt: Zähler ${from} bis ${to}.`,
  turningOut: (passes, from, to) => `Verlängern, ${rows(passes)}, Maschen von ${from} bis ${to}: vor jeder Reihe die genannte Nadel, gegenüber dem Schlitten, wieder in Arbeit nehmen; sie strickt ihre Masche und die Wickel zusammen.`,
  downCaption: 'Zu halten, Reihe für Reihe', outCaption: 'Wieder in Arbeit, Reihe für Reihe', turningHead: { down: 'Halten', out: 'Arbeit', stitches: 'M', wrap: 'Wickel' },
  cornerNote: (rests) => `* Eckwickel: nach diesen zwei Reihen den Faden um die Endnadel ${ofBed[rests]} legen, damit neben dem Spann kein Loch entsteht.`,

  toe: (times, onBed, tip) => `${times}-mal abnehmen, von ${onBed} auf ${tip} Maschen je Bett. An den genannten Enden beider Betten die zwei äußersten Maschen eine Nadel nach innen umhängen, die innere zuerst; die nächste Nadel trägt dann zwei, die zusammengestrickt werden.`,
  toeSlant: (times, at) => `Die ersten ${times} nur ${side[at]}, wo die kleine Zehe liegt.`,
  toeCaption: 'Abnahmen: vor welcher Reihe, dann Maschen je Bett, dann Reihen', toeHead: ['vor', 'links', 'rechts', 'je Bett', 'dann'],
  graft: (o) => `Maschenstich: Faden abschneiden, ${o.tail} hängen lassen, und die Maschen beider Betten mit der stumpfen Nadel verbinden, jede mit der ihr gegenüber: ${count(o.pairs, 'Paar', 'Paare')}, von ${o.first} bis ${o.last}. Er gibt keinen Wulst.`,
  orBindOff: 'Oder abketten: alle Maschen auf ein Bett, zwei je Nadel, und locker abketten; schneller, gibt aber einen kleinen Wulst.',
  bindOff: (o) => `Abketten: die ${stitches(o.pairs)} ${ofBed[o.from]} auf die Nadeln gegenüber umhängen, ${onto[o.to]}, zwei je Nadel, und locker abketten von ${o.first} bis ${o.last}. Faden abschneiden, ${o.tail} hängen lassen. Es bleibt ein kleiner Wulst.`,
  orGraft: 'Oder im Maschenstich schließen: die Maschen beider Betten mit stumpfer Nadel paarweise verbinden; langsamer, aber ohne Wulst.',

  seam: (over, tail) => `Naht: die Kanten des Schafts an der hinteren Mitte zusammennähen, Reihe an Reihe über ${rows(over)}, vom Anschlag bis zum Wenden, flach und nicht fest. Sie braucht ${tail} Garn.`,
  noSeam: 'Naht: keine, der Schaft ist rund gestrickt.',
  ends: (ends) => `Enden: ${ends} vernähen, entlang der Naht oder einer Fersenschräge, keines unter Ferse oder Ballen.`,
  wash: 'Waschen wie später die Socke, in einem Handtuch ausdrücken, flach in Form trocknen oder auf einem Spanner, der nicht größer ist als die Socke. Einen Tag ruhen lassen, dann entlang des Gestricks messen, ungedehnt.',
  measuresCaption: 'Maße nach dem Waschen', measuresHead: ['Maß', 'erwartet', 'eigenes'],
  measures: { footLengthMm: 'Fuß, Ferse bis Spitze', footGirthMm: 'Fuß, rundum', halfGirthMm: 'Fuß, flach: Breite', heelDepthMm: 'Ferse, Tiefe', toeLengthMm: 'Spitze, Länge', legLengthMm: 'Schaft, ohne Knöchel' },

  otherSame: (of) => `Die ${foot[of]} Socke ist gleich: nichts weicht ab, zweimal dasselbe stricken. Wer ein genaues Spiegelbild will, vertauscht oben überall links und rechts, Seiten des Schlittens und Nadeln.`,
  otherDiffers: (of, numbers, sum, carriage) => `Für die ${foot[of]} Socke oben überall links und rechts vertauschen: Schlitten, Enden, Seiten und Nadeln (${numbers === 'middle'
    ? 'L für R' : `Nadel n wird ${sum} - n`}). Der Schlitten beginnt ${side[carriage]}; Naht und hintere Mitte bleiben in der Mitte. Anders sein muss die Spitze:`,
  otherSlant: (times, at) => `die ${count(times, 'Abnahme', 'Abnahmen')} der kleinen Zehe kommen zuerst, nun ${side[at]}.`,
  otherCaption: (of) => `Abnahmen der ${foot[of]}n Socke: vor welcher Reihe, dann Maschen je Bett, dann Reihen`,

  sizesCaption: 'Dieselbe Socke in anderen Größen', thisSock: 'Diese Socke',
  sizesNote: 'Zwei Reihen sind eine Runde; bei flachen Rippen ist jede Fahrt eine Reihe. Größen mit * sind Schätzungen ohne veröffentlichte Tabelle: möglichst den Fuß messen.',
  sizeRows: {
    foot: 'Fuß, Länge', girth: 'Fuß, Ballenumfang', stitches: 'Maschen rundum', bed: 'Maschen je Bett', leg: 'Schaft, Reihen', plain: 'Glatte Reihen', ankle: 'Knöchel, Reihen', heel: 'Ferse, Maschen', turnDown: 'Ferse, verkürzt auf',
    down: 'Ferse verkürzen, Reihen', level: 'Ferse gerade, Reihen', out: 'Ferse verlängern, Reihen', footPasses: 'Fuß, Reihen', rounds: 'Fuß, Runden', decreases: 'Spitze, Abnahmen', tip: 'Spitze, am Ende je Bett',
    toe: 'Spitze, Reihen', all: 'Reihen insgesamt', sockLength: 'Fuß der Socke, Länge', metres: 'Garn für das Paar, m', grams: 'Garn für das Paar, g',
  },

  room: {
    heading: 'Strickblatt', about: 'Die ganze Socke auf Papier: drucken oder als Text mitnehmen. Der Zähler zählt jede Fahrt des Schlittens.',
    paper: 'Papier', papers: { a4: 'A4', letter: 'US Letter' }, language: 'Sprache des Blattes', numbers: 'Nadeln gezählt von', numbersFrom: { middle: 'der Mitte', left: 'links' },
    transfers: 'Jede umgehängte Masche auflisten', sizes: 'Größen als Spalten', sizesHelp: 'Diese Socke steht immer zuerst.', estimate: 'Schätzung',
    print: 'Drucken', copy: 'Als Text kopieren', save: 'Text speichern', copied: 'Kopiert.', notCopied: 'Der Browser ließ die Seite nicht kopieren.', saved: (name) => `Gespeichert als ${name}.`,
    pages: 'Seiten des Blattes', page: (page, pages) => `Seite ${page} von ${pages}`, continued: (title) => `${title}, weiter`,
    count: (pages, paper) => `${count(pages, 'Seite', 'Seiten')} ${paper}`,
    tooLong: 'Das sind mehr als vier: ohne die Liste der umgehängten Maschen oder mit weniger Größen wird es kürzer.',
    tooLongAnyway: 'Das sind mehr als vier: diese Socke hat sehr viele Reihen oder Streifen aufzulisten.',
    waiting: 'Die Socke wird berechnet …', none: 'Es gibt noch keine Socke, die sich stricken lässt.', kept: 'Die Socke auf der Seite lässt sich so nicht stricken: Dies ist das Blatt der letzten, die es ließ.',
    grading: 'Größen werden berechnet …', sizeFails: (size, why) => `${size}: ${why}`, gradeFails: (why) => `Die Größen konnten nicht berechnet werden: ${why}`,
  },
  sizeNames: {
    'Infant, to 6 months': 'Säugling, bis 6 Monate', 'Infant, to 1 year': 'Säugling, bis 1 Jahr', 'Child, 1 to 2 years': 'Kind, 1 bis 2 Jahre', 'Child, 3 to 4 years': 'Kind, 3 bis 4 Jahre',
    'Child, 5 to 6 years': 'Kind, 5 bis 6 Jahre', 'Child, 7 to 8 years': 'Kind, 7 bis 8 Jahre', 'Child, 9 to 10 years': 'Kind, 9 bis 10 Jahre', 'Child, 11 to 12 years': 'Kind, 11 bis 12 Jahre',
    'Adult, extra-small': 'Erwachsene, sehr klein', 'Adult, small': 'Erwachsene, klein', 'Adult, medium': 'Erwachsene, mittel', 'Adult, large': 'Erwachsene, groß', 'Adult, extra-large': 'Erwachsene, sehr groß',
  },
};
