import type { Bed, FootSide, YarnStart } from '../plan/sock-file.ts';
import type { Side } from '../plan/step.ts';

const bed: Readonly<Record<Bed, string>> = { front: 'front bed', back: 'back bed' };
const bedShort: Readonly<Record<Bed, string>> = { front: 'front', back: 'back' };
const side: Readonly<Record<Side, string>> = { left: 'left', right: 'right' };
const foot: Readonly<Record<FootSide, string>> = { left: 'left', right: 'right' };
const start: Readonly<Record<YarnStart, string>> = { leg: 'leg', ankle: 'ankle', heel: 'heel', foot: 'foot', toe: 'toe' };
const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** Short forms of the cautions of `findCautions`, by their field; `value` as the caution has it. */
const cautions: Readonly<Record<string, (value: string) => string>> = {
  'foot.shoeSize': (value) => `The foot's length, about ${value}, comes from a shoe size, and makers differ by half a size and more: measure the foot if you can.`,
  'foot.calfGirthMm': (value) => `The top must stretch far for a leg of ${value} and may sit tight: more stitches or a shorter leg help. With swollen or numb legs, diabetes or poor circulation ask a clinician first.`,
  'foot.ankleGirthMm': (value) => `The ankle must stretch far for ${value} and may sit tight: more stitches help. With swollen or numb legs, diabetes or poor circulation ask a clinician first.`,
  'foot.heelDiagonalMm': (value) => `The heel must stretch far to let in ${value} round heel and instep: a smaller turn-down or plateau passes make it deeper.`,
  'foot.ballGirthMm': (value) => `The foot of the sock does not suit a ball of ${value}: it will sit tight, or lie in folds in a shoe.`,
  'heel.stitches': (value) => `The heel of ${value} stitches reaches beyond the other bed's ends: ease the loops at its corners over one by one, with the weight off, and draw the strand there in afterwards.`,
  'counts.footPasses': (value) => `The ${value} passes of the foot, fixed by hand, miss the wanted length.`,
  'toe.closing': () => 'A bound-off toe leaves a small ridge over the toes; for numb or swollen feet choose the graft.',
};

/** The knitting sheet. */
export const SHEET_EN = {
  decimalMark: '.', bed, bedShort, side, cautions,
  counter: 'Counter', carriage: 'Carriage', pass: 'Pass', carriageShort: 'To', fromTo: (from: string | number, to: string | number) => `${from} to ${to}`, sides: (from: Side, to: Side) => `${side[from]} to ${side[to]}`,
  titles: {
    sock: 'The sock', materials: 'Materials', swatch: 'Swatch', care: 'Take care', glance: 'At a glance', castOn: 'Cast-on', leg: 'Leg', turn: 'Gather and turn', ankle: 'Ankle',
    heel: 'Heel', foot: 'Foot', toe: 'Toe', closing: 'Closing', finish: 'Finishing', other: 'The other sock', sizes: 'Sizes',
  },
  subtitle: (of: FootSide, stitches: number, passes: number) => `Knitting sheet for the ${foot[of]} sock: ${stitches} stitches round, ${passes} passes`,

  footFacts: 'Foot', gaugeFacts: 'Gauge', stitchFacts: 'Stitches', machineFacts: 'Machine', needleFacts: 'Needles in use',
  footOf: (of: FootSide, length: string | null, girth: string | null) => [`${foot[of]} foot`, ...(length === null ? [] : [`${length} long`]), ...(girth === null ? [] : [`${girth} round the ball`])].join(', '),
  gaugeOf: (stitches: string, rows: string, unit: 'cm' | 'in') => `${stitches} stitches and ${rows} rows ${unit === 'cm' ? 'in 10 cm' : 'to the inch'}, washed and rested`,
  stitchesOf: (round: number, onBed: number, heel: number, turnDown: number, tip: number) => `${round} round, ${onBed} a bed; heel on ${heel}, turned down to ${turnDown}; toe to ${tip} a bed`,
  machineOf: (needles: number, pitch: string, numbers: 'middle' | 'left') => `two beds of ${needles} needles, ${pitch} mm apart; ${numbers === 'middle'
    ? 'needles are counted from the middle of the bed, L to the left and R to the right' : 'needles are counted from the left end of the bed'}`,
  needlesOf: (from: string, to: string) => `${from} to ${to}`,
  legSpan: 'leg', tubeSpan: 'tube', heelSpan: 'heel',
  bothBeds: (needles: string) => `${needles} on both beds`,
  onBed: (needles: string, of: Bed) => `${needles} on the ${bed[of]}`,

  yarnHead: ['Yarn', 'For', 'Sock, m', 'Sock, g', 'Pair, m', 'Pair, g'], start, together: 'Together', yarnsCaption: 'Yarn for one sock and for the pair',
  yarnNote: (tail: string) => `An estimate from the count of loops, with seam, closing and tails of ${tail}: have a tenth more in hand.`,
  tools: 'Also: cast-on comb and weights, a small weight or two for the heel, transfer tools, pass counter, blunt darning needle, thread to mark.',

  swatchHow: (gauge: string) => `Needed: ${gauge}. Knit a swatch as the foot will be knitted, same yarn and tension, half as wide again as what you count. Wash and dry it as the sock will be washed, let it rest flat for a day, unpinned and unstretched, then count in its middle.`,
  swatchElse: 'If your count differs, put your own gauge into the plan: all counts below follow from it.',
  swatchCaption: 'Swatches counted', swatchHead: ['Stitches', 'over', 'Rows', 'over', 'State', 'Stitches', 'Rows'], washed: 'washed', unwashed: 'not yet washed',
  per: { cm: 'in 10 cm', in: 'to 1 in' },

  care: [
    'Needle hooks and latches are sharp. Hang weights where they cannot fall on feet; keep fingers clear of the carriage, and children beside you.',
    'With swelling, numb feet, diabetes or poor circulation avoid tight tops, and ridges or loose folds at the toes, and ask a clinician what to wear. A sock that leaves deep marks is too tight; this is no compression sock.',
    'Socks without shoes slip on smooth floors; grips on the sole help.',
  ],

  glanceCaption: 'Sections in order', glanceHead: ['Section', 'Passes', 'Makes', 'Counter', 'Carriage', 'Stitches a pass'],
  rows: (n: number) => count(n, 'row'), rounds: (n: number) => count(n, 'round'),
  glanceNote: 'The counter counts passes, and two passes make a round of the tube; set it to 0 after the cast-on. Counter and carriage are those at the start and at the end of a section.',
  changesCaption: 'Yarn changes', changesHead: ['Passes', 'Yarn', 'Join at'],
  changesNote: (tail: string) => `At each change break the yarn, leave ${tail}, and join the next where the carriage stands. 0 is the cast-on.`,

  castOnCaption: 'Needles for the cast-on', castOnHead: ['Bed', 'From', 'To', 'Needles', 'Stitches'], everyNeedle: 'every', everySecond: 'every second',
  castOnRow: (o: { stitches: number; firstBed: Bed; first: string; lastBed: Bed; last: string; carriage: Side }) =>
    `Cast on ${o.stitches} stitches for 1x1 rib, one bed and the other in turn, from ${o.first} on the ${bed[o.firstBed]} to ${o.last} on the ${bed[o.lastBed]}. The carriage, with the yarn, then stands on the ${side[o.carriage]}.`,
  castOnRing: (o: { stitches: number; firstBed: Bed; first: string; turn: string; last: string; carriage: Side }) =>
    `Cast on ${o.stitches} stitches in the round: on the ${bed[o.firstBed]} from ${o.first} to ${o.turn}, then on the other bed back to ${o.last}. The carriage, with the yarn, then stands on the ${side[o.carriage]}.`,
  ribBeds: 'For rib set the beds as your machine\'s manual says, so that working needles of one bed stand between those of the other; to move loops across, needles face each other.',
  castOnWeight: 'Hang the comb in the whole cast-on row and weight it evenly, just enough that every loop knits off cleanly; move weights up as the cloth grows. Set the counter to 0.',

  legFlat: (passes: number) => `Knit ${count(passes, 'row')} of 1x1 rib, both beds together: a pass is a row.`,
  legTube: (passes: number, first: Bed) => `Knit ${count(passes, 'pass', 'passes')} plain, that is ${count(passes / 2, 'round')}: the ${bed[first]} first, the beds in turn.`,

  gather: (moves: number, from: Bed, to: Bed) => `Gather: take the weights off, move the ${moves} loops of the ${bed[from]} straight across to the empty needles facing them on the ${bed[to]}, and hang the weights on again.`,
  plainRows: (passes: number, of: Bed, stitches: number, from: number, to: number) => `Knit ${count(passes, 'plain row')} on the ${bed[of]} alone, ${stitches} stitches each: counter ${from} to ${to}.`,
  turn: (moves: number, from: Bed, to: Bed, onBed: number) => `Turn the work: take the weights off again, and move the outer quarters of the ${bed[from]}, ${moves} loops, to the ${bed[to]}, so that ${onBed} stitches face ${onBed} and the edges meet in the middle of the ${bed[to]}: that is the centre back.`,
  turnRule: (end: Side, first: readonly [string, string], second: readonly [string, string] | null, last: readonly [string, string]) =>
    `${end === 'left' ? 'Left' : 'Right'} end: ${first[0]} to ${first[1]}${second === null ? '' : `, ${second[0]} to ${second[1]}`}, and so on until ${last[0]} to ${last[1]}.`,
  turnWeight: 'Hang the weights on again, through both layers.',
  turnYarn: (tail: string, at: Side) => `Break the yarn, leave ${tail} at the centre back, and join it again on the ${side[at]}, where the carriage stands.`,
  gatherCaption: (from: Bed, to: Bed) => `Gathering: from the ${bed[from]} to the ${bed[to]}`,
  turnCaption: (from: Bed, to: Bed) => `Turning: from the ${bed[from]} to the ${bed[to]}`,
  fromHead: 'From', toHead: 'To',

  tubeCarriage: 'Set the carriage for tube, as your machine\'s manual says: each bed knits one way only.',
  tube: (passes: number, first: Bed) => `Knit ${count(passes, 'pass', 'passes')} of tube, that is ${count(passes / 2, 'round')}: the ${bed[first]} first, the beds in turn.`,
  shiftTo: (heel: number, beyond: number, to: Bed) => `The heel is wider than half: before the last two passes move ${count(beyond, 'stitch', 'stitches')} at each end to the ${bed[to]}, which then has ${heel}.`,
  shiftFrom: (beyond: number, to: Bed) => `Before the first two passes move the ${count(beyond, 'stitch', 'stitches')} at each end back to the ${bed[to]}, the outermost first.`,
  shiftCaption: (from: Bed, to: Bed) => `Moved stitches: from the ${bed[from]} to the ${bed[to]}`, beforePass: 'Before pass',

  heelRests: (knits: Bed, rests: Bed) => `The ${bed[knits]} alone knits the heel; the ${bed[rests]} rests with its loops.`,
  toeRests: (knits: Bed, rests: Bed) => `The toe is turned like a heel on the ${bed[knits]}, down and out again; the ${bed[rests]} rests with its loops.`,
  heelWeight: 'Hang a small weight or two, evenly, under the stitches that knit, move them up every few passes, and take them off after the last.',
  turningDown: (passes: number, from: number, to: number, hasWraps: boolean) =>
    `Turning down, ${count(passes, 'pass', 'passes')}, stitches from ${from} to ${to}: before each pass put the needle in the list, at the end away from the carriage, into hold; ${hasWraps
      ? 'after the pass lay the working yarn round it.' : 'nothing is wrapped, and a small hole stays at each turn.'}`,
  level: (passes: number, stitches: number, from: number, to: number) => `Plateau: ${count(passes, 'pass', 'passes')} over the same ${stitches} stitches, no needle moved, nothing wrapped: counter ${from} to ${to}.`,
  turningOut: (passes: number, from: number, to: number, hasWraps: boolean) =>
    `Turning out, ${count(passes, 'pass', 'passes')}, stitches from ${from} to ${to}: before each pass bring the needle in the list, at the end away from the carriage, back to work; it knits its loop${hasWraps ? ' together with its wrap' : ''}.`,
  downCaption: 'Into hold, pass by pass', outCaption: 'Back to work, pass by pass', turningHead: { down: 'Hold', out: 'Work', stitches: 'Knits', wrap: 'Wrap' },
  cornerNote: (rests: Bed) => `Corner wraps: after the last two passes lay the yarn round the end needle of the ${bed[rests]}, as listed, so that no hole opens beside the instep.`,

  toe: (times: number, onBed: number, tip: number) => `Decrease ${count(times, 'time')}, from ${onBed} to ${tip} stitches a bed. At each end in the table, on both beds alike, move the two outermost loops one needle inward, the inner one first; the needle beside them then carries two, which the next pass knits together.`,
  toeSlant: (times: number, end: Side) => `The first ${times} are on the ${side[end]} only, where the little toe lies.`,
  toeCaption: 'Decreases: before which pass, stitches then on a bed, passes then knitted', toeHead: ['Before', 'Left end', 'Right end', 'A bed', 'Then knit'],
  graft: (o: { pairs: number; first: string; last: string; tail: string }) =>
    `Graft: break the yarn, leave ${o.tail}, and join the two beds' loops with the blunt needle, each with the one facing it: ${count(o.pairs, 'pair')}, from ${o.first} to ${o.last}. Each pair comes off its needles as it is joined; after the last the sock is free. It leaves no ridge.`,
  orBindOff: 'Or bind off instead: all loops to one bed, two on a needle, and chain them off loosely; quicker, but it leaves a small ridge.',
  bindOff: (o: { pairs: number; from: Bed; to: Bed; first: string; last: string; tail: string }) =>
    `Bind off: move the ${o.pairs} loops of the ${bed[o.from]} to the needles facing them on the ${bed[o.to]}, two on each, and chain them off loosely from ${o.first} to ${o.last}. Break the yarn, leave ${o.tail}, and draw it through the last loop: the sock is free. It leaves a small ridge.`,
  orGraft: 'Or graft instead: join the two beds’ loops pair by pair with a blunt needle; slower, but without a ridge.',

  seam: (rows: number, tail: string) => `Seam: sew the leg's edges together at the centre back with the leg's yarn, row to row over ${rows} rows, from the cast-on down to the turn, flat and not tight. It takes ${tail} of yarn.`,
  noSeam: 'Seam: none, the leg is knitted round.',
  ends: (ends: number) => `Ends: darn in ${ends}, along the seam or a mitre, none under heel or ball.`,
  wash: 'Wash as the sock will be washed, press out in a towel, and dry it flat in its own shape, or on a form no larger than the sock. Let it rest a day, then measure along the cloth, unstretched.',
  measuresCaption: 'Measures after washing', measuresHead: ['Measure', 'Expected', 'Yours'],
  measures: { footLengthMm: 'Foot, heel to tip', footGirthMm: 'Foot, round', halfGirthMm: 'Foot, laid flat: width', heelDepthMm: 'Heel, depth', toeLengthMm: 'Toe, length', legLengthMm: 'Leg, without ankle' },

  otherSame: (of: FootSide) => `The ${foot[of]} sock is the same: nothing differs, knit two alike. Whoever wants an exact mirror image exchanges left and right in everything above, carriage sides and needles.`,
  otherDiffers: (of: FootSide, numbers: 'middle' | 'left', sum: number, carriage: Side) => `For the ${foot[of]} sock exchange left and right in everything above: carriage, ends, sides, and needles (${numbers === 'middle'
    ? 'L for R' : `needle n becomes ${sum} - n`}). The carriage starts on the ${side[carriage]}; seam and centre back stay in the middle. What must differ is the toe:`,
  otherSlant: (times: number, end: Side) => `the little toe's ${count(times, 'decrease')} come first, now on the ${side[end]}.`,
  otherCaption: (of: FootSide) => `Decreases of the ${foot[of]} sock: before which pass, stitches then on a bed, passes then knitted`,

  sizesCaption: 'The same sock in other sizes', thisSock: 'This sock',
  sizesNote: 'Two passes make a round; a row of the flat rib is one pass. The carriage stands where it does after the cast-on; from the ankle on its sides are those above. Sizes marked * are estimates without a published table: measure the foot if you can.',
  sizeRows: {
    foot: 'Foot, length', girth: 'Foot, ball girth', stitches: 'Stitches round', bed: 'Stitches a bed', castOnSide: 'Cast-on, carriage', castOn: 'Cast-on, needles', leg: 'Leg, passes', plain: 'Plain rows', ankle: 'Ankle, passes', heel: 'Heel, stitches', turnDown: 'Heel, turned down to',
    down: 'Heel down, passes', level: 'Heel plateau, passes', out: 'Heel out, passes', footPasses: 'Foot, passes', rounds: 'Foot, rounds', decreases: 'Toe, decreases', tip: 'Toe, stitches a bed at the tip',
    toe: 'Toe, passes', all: 'Passes in all', sockLength: 'Foot of the sock, length', metres: 'Yarn for the pair, m', grams: 'Yarn for the pair, g',
  },

  /** The room in which the sheet is looked at and printed. */
  room: {
    heading: 'Knitting sheet', about: 'All of the sock on paper: print it, or take the text along. The counter counts passes.',
    paper: 'Paper', papers: { a4: 'A4', letter: 'US Letter' }, language: 'Language of the sheet', numbers: 'Needles counted from', numbersFrom: { middle: 'the middle', left: 'the left' },
    transfers: 'List every stitch that is moved', sizes: 'Sizes as columns', sizesHelp: 'This sock always stands first.', estimate: 'estimate',
    print: 'Print', copy: 'Copy as text', save: 'Save text', copied: 'Copied.', notCopied: 'The browser did not let the page copy.', saved: (name: string) => `Saved as ${name}.`,
    pages: 'Pages of the sheet', page: (page: number, pages: number) => `Page ${page} of ${pages}`, continued: (title: string) => `${title}, continued`,
    count: (pages: number, paper: string) => `${count(pages, 'page')} of ${paper}`,
    tooLong: 'That is more than four: without the list of moved stitches, or with fewer sizes, it gets shorter.',
    tooLongAnyway: 'That is more than four: this sock has a great many passes or stripes to list.',
    waiting: 'The sock is being worked out…', none: 'There is no sock yet that can be knitted.', kept: 'The sock on the page cannot be knitted as it stands: this is the sheet of the last one that could.',
    grading: 'Sizes are being worked out…', sizeFails: (size: string, why: string) => `${size}: ${why}`, gradeFails: (why: string) => `The sizes could not be worked out: ${why}`,
  },
  /** Names of the standard sizes, where the language has others. */
  sizeNames: {} as Readonly<Record<string, string>>,
};
