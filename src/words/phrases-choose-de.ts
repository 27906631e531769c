import type { Phrase } from './say.ts';

/** Reasons for advice (src/choose/advice-words.ts). */
const REASONS: readonly Phrase[] = [
  ['Advice is for a foot: give its length, or its girth at the ball, or both.', 'Rat gibt es für einen Fuß: seine Länge oder seinen Ballenumfang angeben, oder beides.'],
  ['Heel to instep is not known, so that of an average foot of this size and arch is taken: measure it, as feet of one size differ there.', 'Ferse und Spann sind nicht gemessen, also gilt das Maß eines durchschnittlichen Fußes dieser Größe und dieses Gewölbes: messen, denn Füße einer Größe unterscheiden sich dort.'],
  ['Your instep is {}: heel to instep is {n} of the ball girth, where most feet have about {n}; the sock as it stands has {n}.', 'Ihr Spann ist {1}: Ferse und Spann sind das {2}-Fache des Ballenumfangs, bei den meisten Füßen etwa das {3}-Fache; die Socke hat jetzt das {4}-Fache.'],
  ['Your instep is {}: heel to instep is {n} of the ball girth, where most feet have about {n}.', 'Ihr Spann ist {1}: Ferse und Spann sind das {2}-Fache des Ballenumfangs, bei den meisten Füßen etwa das {3}-Fache.'],
  ['high', 'hoch'], ['low', 'niedrig'], ['of usual height', 'von üblicher Höhe'],
  ['The sock as it stands suits this foot best of all that were tried.', 'Die Socke, wie sie ist, passt diesem Fuß am besten von allen, die versucht wurden.'],
  ['{} stay as they are fixed by hand.', '{1} bleiben, wie sie von Hand festgelegt sind.'],
  ['On this foot the line over the heel stretches by {n}, {} the girth round the ball, {n}.', 'An diesem Fuß dehnt sich die Linie über die Ferse um {1}, {2} der Umfang um den Ballen, {3}.'],
  ['about as', 'etwa so weit wie'], ['more than', 'mehr als'], ['less than', 'weniger als'],
  ['{n} stitches round instead of {n} keep the foot as wide.', '{1} Maschen rundum statt {2} lassen den Fuß so weit, wie er ist.'], ['{n} stitches round where the first advice has {n} keep the foot as wide.', '{1} Maschen rundum, wo der erste Rat {2} hat, lassen den Fuß so weit, wie er ist.'],
  ['{n} stitches round instead of {n} make {}.', '{1} Maschen rundum statt {2} machen {3}.'], ['{n} stitches round where the first advice has {n} make {}.', '{1} Maschen rundum, wo der erste Rat {2} hat, machen {3}.'],
  ['turning down to {n} instead of {n}', 'Verkürzen auf {1} statt {2}'], ['turning down to {n} where the first advice has {n}', 'Verkürzen auf {1}, wo der erste Rat {2} hat'],
  ['{n} plateau passes instead of {n}', '{1} gerade Reihen statt {2}'], ['{n} plateau passes where the first advice has {n}', '{1} gerade Reihen, wo der erste Rat {2} hat'],
  ['a heel on {n} stitches instead of {n}', 'eine Ferse auf {1} Maschen statt {2}'], ['a heel on {n} stitches where the first advice has {n}', 'eine Ferse auf {1} Maschen, wo der erste Rat {2} hat'],
  ['{}: that keeps the heel as deep.', '{1}: Das lässt die Ferse so tief, wie sie ist.'], ['{}: that makes {}.', '{1}: Das macht {2}.'],
  ['the heel {n} deeper', 'die Ferse {1} tiefer'], ['the heel {n} shallower', 'die Ferse {1} flacher'], ['the line over heel and instep {n} longer', 'die Linie über Ferse und Spann {1} länger'],
  ['the line over heel and instep {n} shorter', 'die Linie über Ferse und Spann {1} kürzer'], ['the foot {n} wider', 'den Fuß {1} weiter'], ['the foot {n} narrower', 'den Fuß {1} enger'],
  ['ends on {n} stitches a bed instead of {n}', 'endet auf {1} Maschen je Bett statt {2}'], ['ends on {n} stitches a bed where the first advice has {n}', 'endet auf {1} Maschen je Bett, wo der erste Rat {2} hat'],
  ['is decreased every {n} passes instead of {n}', 'wird alle {1} Reihen statt alle {2} abgenommen'], ['is decreased every {n} passes where the first advice has {n}', 'wird alle {1} Reihen abgenommen, wo der erste Rat {2} hat'],
  ['The toe {}.', 'Die Spitze {1}.'],
];

/** Two socks compared (src/choose/compare-socks.ts). */
const COMPARISON: readonly Phrase[] = [
  ['Stitches a bed at the tip', 'Maschen je Bett am Ende der Spitze'], ['Decreases of the toe', 'Abnahmen der Spitze'], ['Passes in all', 'Reihen insgesamt'], ['Loops', 'Maschen gestrickt'], ['Yarn of a sock', 'Garn einer Socke'],
  ['Stitches round', 'Maschen rundum'], ['Stitches of the heel', 'Maschen der Ferse'], ['Turn-down width', 'Kürzeste Reihe'], ['Plateau passes', 'Gerade Reihen'], ['Leg passes', 'Reihen des Schafts'], ['Ankle passes', 'Reihen am Knöchel'],
  ['Heel passes', 'Reihen der Ferse'], ['Foot passes', 'Reihen des Fußes'], ['Toe passes', 'Reihen der Spitze'],
  ['By gauge', 'Nach Probe'], ['Laid flat', 'Flach gelegt'], ['As a tube', 'Als Schlauch'], ['On the beds', 'Auf den Betten'], ['Worn', 'Getragen'],
  ['heel depth', 'Fersentiefe'], ['marked diagonal', 'Markierte Schräge'], ['heel-tip girth', 'Fersenumfang'], ['throat to heel', 'Spann bis Ferse'], ['foot girth', 'Fußumfang'],
  ['toe length', 'Länge der Spitze'], ['width of the tip', 'Breite am Ende'], ['angle of leg and foot', 'Winkel von Schaft und Fuß'],
  ['stretch in width, median', 'Dehnung quer, Median'], ['stretch in width, a twentieth above', 'Dehnung quer, ein Zwanzigstel darüber'], ['stretch in length, median', 'Dehnung längs, Median'], ['stretch in length, a twentieth above', 'Dehnung längs, ein Zwanzigstel darüber'],
  ['pressure at the top of the leg', 'Druck am Bund'], ['pressure at the ankle', 'Druck am Knöchel'], ['pressure, a twentieth above', 'Druck, ein Zwanzigstel darüber'], ['cloth that stands off', 'Gestrick, das absteht'],
  ['stretch over the heel, times that of the foot', 'Dehnung über die Ferse, im Verhältnis zum Fuß'],
  ['By gauge: {}', 'Nach Probe: {1}'], ['Laid flat: {}', 'Flach gelegt: {1}'], ['As a tube: {}', 'Als Schlauch: {1}'], ['Worn: {}', 'Getragen: {1}'],
  ['The two socks have different gauges: compare them in {t}, not stitch by stitch or pass by pass.', 'Die beiden Socken haben verschiedene Maschenproben: in {1} vergleichen, nicht Masche für Masche oder Reihe für Reihe.'],
  ['The two ribs draw in differently: the legs differ in width for that alone.', 'Die beiden Rippen ziehen sich verschieden zusammen: Schon deshalb sind die Schäfte verschieden weit.'],
  ['The two cloths are not equally firm: shapes and stretch differ for that alone.', 'Die beiden Gestricke sind nicht gleich fest: Schon deshalb unterscheiden sich Form und Dehnung.'],
  ['The two socks are planned for different machines: check that both fit on yours.', 'Die beiden Socken sind für verschiedene Maschinen geplant: prüfen, ob beide auf Ihre passen.'],
  ['The two are on different feet.', 'Die beiden sind an verschiedenen Füßen.'],
  ['{}, neither shape has come to rest: differences may be off.', '{1}: Keine der Formen ist zur Ruhe gekommen; Unterschiede können ungenau sein.'], ['{}, the first shape has not come to rest: differences may be off.', '{1}: Die erste Form ist nicht zur Ruhe gekommen; Unterschiede können ungenau sein.'],
  ['{}, the second shape has not come to rest: differences may be off.', '{1}: Die zweite Form ist nicht zur Ruhe gekommen; Unterschiede können ungenau sein.'],
];

/** Sizes, and what is wrong with them (src/foot/standard-sizes.ts, src/choose/check-sizes.ts). */
const SIZES: readonly Phrase[] = [
  ['Infant, to 6 months', 'Säugling, bis 6 Monate'], ['Infant, to 1 year', 'Säugling, bis 1 Jahr'], ['Child, {n} to {n} years', 'Kind, {1} bis {2} Jahre'],
  ['Adult, extra-small', 'Erwachsene, sehr klein'], ['Adult, small', 'Erwachsene, klein'], ['Adult, medium', 'Erwachsene, mittel'], ['Adult, large', 'Erwachsene, groß'], ['Adult, extra-large', 'Erwachsene, sehr groß'],
  ['Estimate: length on a straight line between published means at 3 and at 6 to 15 years; girth in the proportion of the smallest adults', 'Schätzung: Länge auf einer Geraden zwischen veröffentlichten Mittelwerten mit 3 und mit 6 bis 15 Jahren; Umfang im Verhältnis der kleinsten Erwachsenen'],
  ['Estimate: length from memory; girth in the proportion of the smallest adults', 'Schätzung: Länge aus dem Gedächtnis; Umfang im Verhältnis der kleinsten Erwachsenen'],
  ['Survey of U.S. Army personnel, NATICK/TR-15/007, 2014: {}, girth by regression', 'Erhebung unter Angehörigen der US-Armee, NATICK/TR-15/007, 2014: {1}, Umfang durch Regression'],
  ['the length that {n} of the women stay below', 'die Länge, unter der {1} der Frauen bleiben'], ['the women\'s mean', 'das Mittel der Frauen'], ['midway between women\'s and men\'s means', 'in der Mitte zwischen den Mitteln von Frauen und Männern'],
  ['the men\'s mean', 'das Mittel der Männer'], ['the length that {n} of the men exceed', 'die Länge, die {1} der Männer übertreffen'],
  ['Foot length of size {t}: {t}, but it must be from {n} to {n}.', 'Fußlänge der Größe {1}: {2}, sie muss aber von {3} bis {4} sein.'], ['Girth at the ball of size {t}: {t}, but it must be from {n} to {n}.', 'Ballenumfang der Größe {1}: {2}, er muss aber von {3} bis {4} sein.'],
  ['Leg length of size {t}: {t}, but it must be from {n} to {n}.', 'Schaftlänge der Größe {1}: {2}, sie muss aber von {3} bis {4} sein.'],
  ['Size {t} is {n} times as far round the ball as it is long, which hardly any foot is: is one of the two a slip?', 'Größe {1} hat am Ballen das {2}-Fache ihrer Länge, wie kaum ein Fuß: Ist eines von beiden ein Versehen?'],
  ['{n} to {n} for a foot of {n}', '{1} bis {2} bei einem Fuß von {3}'], ['{n} to {n}', '{1} bis {2}'],
];

export const CHOOSE_PHRASES_DE: readonly Phrase[] = [...REASONS, ...COMPARISON, ...SIZES];
