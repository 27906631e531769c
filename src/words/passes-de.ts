import type { PASSES_EN } from './passes-en.ts';

const both = (first: string, last: string): string => (first === last ? first : `${first} bis ${last}`);
const needles = (count: number): string => (count === 1 ? '1 Nadel' : `${count} Nadeln`);
const bed = { front: 'vorderes Bett', back: 'hinteres Bett' };
/** Cases of a bed: the bed knits; from, of or on the bed; onto the bed. */
const the = { front: 'das vordere Bett', back: 'das hintere Bett' };
const of = { front: 'vorderen Betts', back: 'hinteren Betts' };
const on = { front: 'vorderen Bett', back: 'hinteren Bett' };
const onto = { front: 'vordere Bett', back: 'hintere Bett' };
const side = { left: 'links', right: 'rechts' };
const end = { left: 'linken', right: 'rechten' };

export const PASSES_DE: typeof PASSES_EN = {
  sections: {
    'cast-on': 'Anschlag', leg: 'Schaft', plain: 'Glatte Reihen', ankle: 'Knöchel', 'heel-in': 'Ferse, verkürzen', 'heel-level': 'Ferse, gerade',
    'heel-out': 'Ferse, verlängern', foot: 'Fuß', toe: 'Spitze', 'toe-in': 'Spitze, verkürzen', 'toe-out': 'Spitze, verlängern', closing: 'Schließen',
  },
  why: {
    'cast-on': 'Der Anschlag ist der obere Rand der Socke. Er ist keine Reihe: Der Zähler steht noch auf 0.',
    leg: 'Rippenreihen oder Runden eines Schlauchs geben dem Schaft seine Länge; Rippen schmiegen sich an.',
    plain: 'Glatte Reihen auf einem Bett sammeln die Rippen, so dass die Maschen nebeneinander liegen und gewendet werden können.',
    ankle: 'Die ersten Runden des Schlauchs liegen zwischen Schaft und Ferse. Die letzte Reihe liegt auf dem Fersenbett: Ihre nächste ist die Ferse.',
    'heel-in': 'Jede Reihe lässt eine Nadel mehr aus und ist so eine Masche kürzer als die vorige. Das andere Bett wartet, und das Gestrick zwischen langen und kurzen Reihen muss sich wölben: So entsteht der Beutel.',
    'heel-level': 'Gerade Reihen, alle so kurz wie die kürzeste, machen den Fersenboden breiter, ohne dass die Schrägen länger werden.',
    'heel-out': 'Jede Reihe nimmt eine gehaltene Nadel wieder auf; die Reihen werden wieder länger, Masche um Masche. Jede wird an eine Masche gestrickt, die gewartet hat: Die Linie dieser Maschen ist die Schräge.',
    foot: 'Zwei Reihen geben eine Runde, auf jedem Bett eine. Sie machen die Länge des Fußes.',
    toe: 'An den Enden beider Betten gehen immer wieder Maschen weg, so dass der Schlauch sich zur Spitze verjüngt.',
    'toe-in': 'Die Spitze ist die Ferse noch einmal: Jede Reihe ist eine Masche kürzer, auf einem Bett allein.',
    'toe-out': 'Die Reihen werden wieder länger, und die Spitze legt sich den Maschen des anderen Betts entgegen.',
    closing: 'Alle offenen Maschen werden verbunden, damit nichts laufen kann.',
  },
  bed,
  side,
  passOf: (pass, passes) => `Reihe ${pass} von ${passes}`,
  castOn: 'Anschlagen',
  closing: 'Spitze schließen',
  bothBeds: 'beide Betten',
  act: {
    castOnRib: (stitches, first, last, firstBed, at) =>
      `${stitches} Maschen für 1x1-Rippen über die Nadeln ${first} bis ${last} anschlagen, abwechselnd auf beiden Betten: ${first} auf dem ${on[firstBed]}, die nächste auf dem anderen und so weiter. Der Schlitten steht danach ${side[at]}.`,
    castOnTube: (stitches, firstBed, first, turn, last, at) =>
      `${stitches} Maschen als geschlossene Runde anschlagen: auf dem ${on[firstBed]} von ${first} bis ${turn}, dann auf dem anderen Bett zurück bis ${last}. Der Schlitten steht danach ${side[at]}.`,
    hang: 'Kamm und Gewichte in den Anschlag hängen.',
    cross: (from, to, stitches, which) =>
      `Schlitten von ${side[from]} nach ${side[to]}: ${which === null ? 'beide Betten stricken' : `${the[which]} strickt`} ${stitches}.`,
    hold: (needle, which) => `Nadel ${needle} des ${of[which]} nach vorn schieben und halten.`,
    back: (needle, which, isWrapped) => `Nadel ${needle} des ${of[which]} wieder in Arbeit nehmen: Sie strickt ihre Masche${isWrapped ? ' mit ihrem Wickel zusammen' : ''}.`,
    wrap: (needle, which) => `Den Faden um die gehaltene Nadel ${needle} des ${of[which]} legen.`,
    cornerWrap: (needle, which) => `Eckwickel: den Faden um Nadel ${needle} des ${of[which]} legen.`,
    newYarn: (name, at) => `Faden abschneiden. ${name} beim Schlitten ${side[at]} ansetzen; zwei Enden hängen lassen.`,
    sameYarn: (at) => `Faden abschneiden und beim Schlitten ${side[at]} neu ansetzen; zwei Enden hängen lassen.`,
    weightsOff: 'Die Gewichte abnehmen.',
    weightsOn: 'Die Gewichte wieder einhängen.',
    weightsOnTube: 'Die Gewichte wieder einhängen, durch beide Lagen.',
    gather: (count, from, to) => `Alle ${count} Maschen des ${of[from]} gerade hinüber auf das ${onto[to]} umhängen.`,
    turn: (count) => `Das Gestrick zum Schlauch wenden: Ein Viertel der Maschen, ${count} an jedem Rand, kommt auf das andere Bett.`,
    run: (fromFirst, fromLast, from, toFirst, toLast, to) =>
      `${both(fromFirst, fromLast)} des ${of[from]} auf ${both(toFirst, toLast)} des ${of[to]} umhängen, in dieser Folge.`,
    shiftTo: (at) => `Die Ferse am ${end[at]} Ende verbreitern:`,
    shiftFrom: (at) => `Die Maschen am ${end[at]} Ende dem Spann zurückgeben:`,
    decrease: (at, outer, second, third, isBoth) =>
      `Am ${end[at]} Ende ${isBoth ? 'beider Betten' : 'des Betts'} abnehmen: die Masche von ${second} auf ${third}, dann die von ${outer} auf ${second} umhängen.`,
    decreased: (front, back) => `Es bleiben ${front} Maschen auf dem vorderen, ${back} auf dem hinteren Bett.`,
    join: (count, from, to) => `Die ${count} Maschen des ${of[from]} gerade hinüber auf das ${onto[to]} umhängen: zwei Maschen auf jeder Nadel.`,
    graft: (count, first, last, cm, inches) =>
      `Faden abschneiden, ${cm} cm (${inches} Zoll) hängen lassen: viermal die Breite der Spitze und ein Ende zum Vernähen. Die Nadeln ${both(first, last)} beider Betten im Maschenstich verbinden: ${count} Maschen mit ${count}.`,
    bindOff: (count, first, last, which) =>
      `${first} bis ${last} des ${of[which]} abketten, ${needles(count)}: die zwei Maschen einer Nadel als eine stricken und über die nächste ziehen. Das Fadenende durch die letzte ziehen.`,
    takeOff: (count) => `${count} Maschen auf einem Faden stilllegen.`,
    seam: (rows) => `Die Naht der hinteren Mitte mit dem Garn des Schafts vom Anschlag bis zum Wenden schließen: ${rows} Reihen, Rand an Rand.`,
    ends: 'Die Socke ist von den Nadeln. Alle Fäden innen vernähen.',
  },
  watch: {
    castOn: 'Haken und Zungen der Nadeln sind scharf; Gewichte so hängen, dass sie nicht auf die Füße fallen.',
    rib: 'Prüfen, ob alle Nadeln beider Betten gestrickt haben, vor allem die Randmaschen.',
    gather: 'Auf dem geleerten Bett darf keine Masche bleiben.',
    turn: 'Die äußerste Masche kommt der Mitte am nächsten: Dort treffen sich die Ränder des Schafts, und mit ihnen die Naht.',
    firstHeel: 'Das andere Bett darf von nun an nicht stricken. Ein, zwei kleine Gewichte gleichmäßig an die Ferse hängen.',
    firstToe: 'Das Bett des Spanns darf von nun an nicht stricken. Ein, zwei kleine Gewichte gleichmäßig an die Spitze hängen.',
    heelIn: 'Gehaltene Maschen bleiben in ihren Haken. Die kleinen Gewichte alle paar Reihen höher hängen, damit sie an den gestrickten Reihen ziehen.',
    heelOut: (isWrapped) => `Eine Nadel, die zurückkommt, muss ihre Masche${isWrapped ? ' mit ihrem Wickel zusammen' : ''} stricken. Prüfen, ob nichts im Haken bleibt.`,
    corner: 'Ohne Eckwickel bleibt ein Loch, wo Ferse und Spann sich treffen.',
    shift: 'Die äußersten Maschen des Spanns wechseln das Bett, während der Schlitten auf der anderen Seite steht.',
    foot: 'Ein Zähler zählt Reihen: Zwei davon geben eine Runde.',
    firstFoot: 'Nun stricken wieder beide Betten abwechselnd, das Spannbett zuerst. Die Fersengewichte abnehmen.',
    decrease: 'Die zweite Nadel vom Rand trägt nun zwei Maschen in einem Haken: Beide müssen in der nächsten Reihe dieses Betts gestrickt werden.',
    twoTails: 'Enden von einer Handlänge lassen, genug zum Vernähen.',
    graft: 'Den Maschenstich so locker ziehen wie die Maschen daneben: Ein fester macht einen Wulst über den Zehen.',
    bindOff: 'Eine abgekettete Spitze hat innen einen Wulst. Bei tauben Füßen, Diabetes oder schlechter Durchblutung im Maschenstich schließen und ärztlichen Rat holen.',
  },
};
