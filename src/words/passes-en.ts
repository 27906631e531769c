import type { Bed } from '../plan/sock-file.ts';
import type { SectionName, Side } from '../plan/step.ts';

/** Parts of a sock, as a heading calls them. */
const sections: Readonly<Record<SectionName, string>> = {
  'cast-on': 'Cast-on', leg: 'Leg', plain: 'Plain rows', ankle: 'Ankle', 'heel-in': 'Heel, turning down', 'heel-level': 'Heel, plateau',
  'heel-out': 'Heel, turning out', foot: 'Foot', toe: 'Toe', 'toe-in': 'Toe, turning down', 'toe-out': 'Toe, turning out', closing: 'Closing',
};

/** Why a part is knitted as it is. */
const why: Readonly<Record<SectionName, string>> = {
  'cast-on': 'The cast-on is the top of the sock. It is no pass: the counter still stands at 0.',
  leg: 'Rows of rib, or rounds of a tube: they make the length of the leg, and rib clings to it.',
  plain: 'Plain rows on one bed gather the rib, so that its stitches lie side by side and can be turned.',
  ankle: 'The first rounds of the tube lie between leg and heel. The last pass is on the heel’s bed: its next is the heel.',
  'heel-in': 'Each pass leaves out one more needle, so each row is a stitch shorter than the one before. The other bed waits, and the cloth between long and short rows has to bulge: that is the pouch.',
  'heel-level': 'Passes at the narrowest width make the bottom of the heel broader without making its mitres longer.',
  'heel-out': 'Each pass takes a held needle in again, so the rows grow as they shrank. Each new row is knitted onto a stitch that has waited: the line of these is the mitre.',
  foot: 'Two passes make a round, one on each bed. They make the length of the foot.',
  toe: 'Stitches go at the ends of both beds, again and again, so that the tube narrows to the tip.',
  'toe-in': 'The toe is the heel once more: each row a stitch shorter, on one bed alone.',
  'toe-out': 'The rows grow again, and the toe folds over to meet the loops of the other bed.',
  closing: 'All loops that are still live are joined, so that nothing can run.',
};

const both = (first: string, last: string): string => (first === last ? first : `${first} to ${last}`);
const needles = (count: number): string => (count === 1 ? '1 needle' : `${count} needles`);
const beds: Readonly<Record<Bed, string>> = { front: 'front bed', back: 'back bed' };
const sides: Readonly<Record<Side, string>> = { left: 'left', right: 'right' };

/** What is done at the machine, pass by pass. Needles come as their labels. */
export const PASSES_EN = {
  sections,
  why,
  bed: beds,
  side: sides,
  passOf: (pass: number, passes: number) => `pass ${pass} of ${passes}`,
  castOn: 'Cast on',
  closing: 'Close the toe',
  bothBeds: 'both beds',
  act: {
    // From the loop that is formed first to the last, at the carriage.
    castOnRib: (stitches: number, first: string, last: string, firstBed: Bed, side: Side) =>
      `Cast on ${stitches} for 1x1 rib over needles ${first} to ${last}, one on each bed in turn: ${first} on the ${beds[firstBed]}, its neighbour on the other, and so on. The carriage ends on the ${sides[side]}.`,
    castOnTube: (stitches: number, firstBed: Bed, first: string, turn: string, last: string, side: Side) =>
      `Cast on ${stitches} as a closed round: on the ${beds[firstBed]} from ${first} to ${turn}, then on the other bed back to ${last}. The carriage ends on the ${sides[side]}.`,
    hang: 'Hang comb and weights into the cast-on.',
    cross: (from: Side, to: Side, stitches: number, bed: Bed | null) =>
      `Carriage from ${sides[from]} to ${sides[to]}: the ${bed === null ? 'two beds knit' : `${beds[bed]} knits`} ${stitches}.`,
    hold: (needle: string, bed: Bed) => `Push needle ${needle} of the ${beds[bed]} forward into hold.`,
    back: (needle: string, bed: Bed, isWrapped: boolean) =>
      `Bring needle ${needle} of the ${beds[bed]} back to work: it knits its loop${isWrapped ? ' together with its wrap' : ''}.`,
    wrap: (needle: string, bed: Bed) => `Lay the yarn round held needle ${needle} of the ${beds[bed]}.`,
    cornerWrap: (needle: string, bed: Bed) => `Corner wrap: lay the yarn round needle ${needle} of the ${beds[bed]}.`,
    newYarn: (name: string, side: Side) => `Break the yarn. Join ${name} at the carriage, on the ${sides[side]}; leave two tails.`,
    sameYarn: (side: Side) => `Break the yarn and join it again at the carriage, on the ${sides[side]}; leave two tails.`,
    weightsOff: 'Take the weights off.',
    weightsOn: 'Hang the weights on again.',
    weightsOnTube: 'Hang the weights on again, through both layers.',
    gather: (count: number, from: Bed, to: Bed) => `Transfer all ${count} loops of the ${beds[from]} to the ${beds[to]}, each straight across.`,
    turn: (count: number) => `Turn the work into a tube: a quarter of the stitches, ${count} at each edge, goes to the other bed.`,
    run: (fromFirst: string, fromLast: string, from: Bed, toFirst: string, toLast: string, to: Bed) =>
      `Transfer ${both(fromFirst, fromLast)} of the ${beds[from]} to ${both(toFirst, toLast)} of the ${beds[to]}, in this order.`,
    shiftTo: (side: Side) => `Widen the heel at the ${sides[side]} end:`,
    shiftFrom: (side: Side) => `Give the stitches at the ${sides[side]} end back to the instep:`,
    decrease: (side: Side, outer: string, second: string, third: string, isBoth: boolean) =>
      `Decrease at the ${sides[side]} end of ${isBoth ? 'both beds' : 'the bed'}: the loop of ${second} goes onto ${third}, then that of ${outer} onto ${second}.`,
    decreased: (left: number, right: number) => `${left} stitches stay on the front bed, ${right} on the back bed.`,
    join: (count: number, from: Bed, to: Bed) => `Transfer the ${count} loops of the ${beds[from]} to the ${beds[to]}, straight across: two loops on each needle.`,
    graft: (count: number, first: string, last: string, cm: number, inches: number) =>
      `Break the yarn, leaving ${cm} cm (${inches} in): four times the toe’s width and a tail. Graft needles ${both(first, last)} of the two beds together: ${count} loops to ${count}.`,
    bindOff: (count: number, first: string, last: string, bed: Bed) =>
      `Bind off from ${first} to ${last} of the ${beds[bed]}, ${needles(count)}: knit the two loops of a needle as one, chain it over the next. Draw the tail through the last.`,
    takeOff: (count: number) => `Take ${count} loops off on a thread.`,
    seam: (rows: number) => `Sew the centre-back seam with the leg’s yarn, from the cast-on down to the turn: ${rows} rows, edge to edge.`,
    ends: 'The sock is off the needles. Darn in all ends on the inside.',
  },
  watch: {
    castOn: 'Needle hooks and latches are sharp; hang weights where they cannot fall on your feet.',
    rib: 'See that every needle of both beds has knitted, the edge stitches above all.',
    gather: 'No loop may be left on the emptied bed.',
    turn: 'The outermost stitch goes nearest to the middle: the two edges of the leg meet there, and the seam with them.',
    firstHeel: 'The other bed must not knit from now on. Hang a small weight or two on the heel, evenly.',
    firstToe: 'The instep’s bed must not knit from now on. Hang a small weight or two on the toe, evenly.',
    heelIn: 'Held loops stay in their hooks. Move the small weights up every few passes, so that they pull on the rows that are knitted.',
    heelOut: (isWrapped: boolean) => `A needle that comes back must knit its loop${isWrapped ? ' together with its wrap' : ''}. Look that none is left in the hook.`,
    corner: 'Without the corner wrap a hole stays open where the heel meets the instep.',
    shift: 'The outermost loops of the instep change beds while the carriage is on the other side.',
    foot: 'A counter counts passes: two of them make a round.',
    firstFoot: 'Both beds knit in turn again, the instep’s bed first. Take the heel’s weights off.',
    decrease: 'The second needle from the end now carries two loops in one hook: both must be knitted in the next pass of that bed.',
    twoTails: 'Leave tails of a hand’s length, enough to darn in.',
    graft: 'Draw the graft as loose as the stitches beside it: a tight one makes a ridge over the toes.',
    bindOff: 'A bound-off toe leaves a ridge inside. For numb feet, diabetes or poor circulation graft instead, and ask a clinician.',
  },
};
