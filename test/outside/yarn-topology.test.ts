import { describe, expect, it } from 'vitest';
import { LOOP } from '../../src/machine/codes.ts';
import { centreLine } from '../../src/yarn/spline.ts';
import { PART } from '../../src/yarn/yarn-lay.ts';
import { castOn, flat, GAUGE, layCloth, type LaidCloth, loopLine, needles, rows, tube } from '../yarn/lay-cloth.ts';
import { closeFar, crossingLinking, gaussLinking, type Polygon, type Vector } from '../yarn/linking.ts';

/** Both numbers, which must be one and the same whole one. */
function linking(one: Polygon, other: Polygon): number {
  const gauss = gaussLinking(one, other);
  expect(Math.abs(gauss - crossingLinking(one, other))).toBeLessThan(1e-6);
  // No -0.
  return Math.round(gauss) + 0;
}

const ring = (place: (angle: number) => Vector, corners = 240): Polygon =>
  Float64Array.from(Array.from({ length: corners }, (_, i) => place((2 * Math.PI * (i + 0.13)) / corners)).flat());
const { cos, sin } = Math;

describe('the counting of links', () => {
  /** Closed form: two round rings through each other's middle, the right-handed and the left-handed one (Rolfsen D., Knots and Links, 1976, 5.D). */
  it('gives a Hopf link 1, its mirror image -1, and rings apart or side by side 0', () => {
    const flatRing = ring((t) => [cos(t), sin(t), 0]), upright = ring((t) => [1 + cos(t), 0, sin(t)]), mirrored = ring((t) => [1 + cos(t), 0, -sin(t)]);
    const sign = linking(flatRing, upright);
    expect(Math.abs(sign)).toBe(1);
    expect(linking(flatRing, mirrored)).toBe(-sign);
    expect(linking(flatRing, ring((t) => [7 + cos(t), 0, sin(t)]))).toBe(0);
    expect(linking(flatRing, ring((t) => [2.5 + cos(t), sin(t), 0.4]))).toBe(0);
    // The upright ring runs down through the flat one's middle, whose own side is upward: -1.
    expect(sign).toBe(-1);
  });

  /** Closed form: the two strands of a (2, 2 n) torus link pass n times round each other. */
  it.each([2, 3, -2])('gives the strands of a torus link with %d turns that number', (turns) => {
    const strand = (start: number): Polygon => ring((t) => [(3 + cos(turns * t + start)) * cos(t), (3 + cos(turns * t + start)) * sin(t), sin(turns * t + start)]);
    // Turned from the outside over the top inwards: a left-handed screw.
    expect(linking(strand(0), strand(Math.PI))).toBe(-turns);
  });
});

const UP: Vector = [0, 1, 0], DOWN: Vector = [0, -1, 0], OUT: Vector = [0, 0, 1], IN: Vector = [0, 0, -1], RIGHT: Vector = [1, 0, 0], LEFT: Vector = [-1, 0, 0];
const reverse = ([x, y, z]: Vector): Vector => [0 - x, 0 - y, 0 - z];

/** A loop as it hangs on its needle: both feet tied far below. */
const asHeld = (cloth: LaidCloth, loop: number, below: Vector = DOWN): Polygon => closeFar(loopLine(cloth, loop), [below], [below]);

/** A leg of a loop: its foot tied far off on the side from which it was drawn, its head far above and so back to there. */
function asLeg(cloth: LaidCloth, loop: number, leg: 'first' | 'second', from: Vector, above: Vector = UP): Polygon {
  const line = loopLine(cloth, loop, leg);
  return leg === 'first' ? closeFar(line, [above, from], [from]) : closeFar(line, [from], [above, from]);
}

/** How often the legs of a loop link another, first and second. */
const legsIn = (cloth: LaidCloth, child: number, parent: number, from: Vector): readonly [number, number] =>
  [linking(asHeld(cloth, parent), asLeg(cloth, child, 'first', from)), linking(asHeld(cloth, parent), asLeg(cloth, child, 'second', from))];

/** +1 where the yarn of a pass runs to the right on the front bed, seen from outside: passes 1, 3, ... come from the right. */
const runOf = (cloth: LaidCloth, loop: number): number => (cloth.grid.pass[loop] % 2 === 1 ? -1 : 1);

const loopAt = ({ grid }: LaidCloth, pass: number, needle: number): number => {
  for (let loop = 0; loop < grid.loopCount; loop++) if (grid.pass[loop] === pass && grid.needle[loop] === needle && grid.kind[loop] <= 1) return loop;
  throw new Error(`no loop of pass ${pass} on needle ${needle}`);
};
const parentsOf = ({ grid }: LaidCloth, loop: number): number[] => [...grid.parents.subarray(grid.parentStart[loop], grid.parentStart[loop + 1])];

/**
 * Derivation. A loop whose yarn runs to the right goes up on its left, over its head and down on its right; its feet tied far below, it is a ring that
 * turns clockwise before the eye, whose own side (right-hand rule) is away from the eye. The loop drawn through it from behind sends its first leg
 * through that ring towards the eye: it links it -1; and its second back again: +1. With the yarn to the left: +1 and -1.
 * From the front, as a purl is: the other way round. The signs of both legs make 0: a loop can be pulled out again.
 */
describe('plain knitting', () => {
  const cloth = layCloth([castOn(needles('front', 1, 7)), ...rows(6)], flat());

  it.each([[3, 3], [3, 4], [4, 4], [5, 5]])('has the legs of the loop of pass %d on needle %d drawn through the one below from behind', (pass, needle) => {
    const child = loopAt(cloth, pass, needle), [parent] = parentsOf(cloth, child), run = runOf(cloth, parent), same = run === runOf(cloth, child) ? 1 : -1;
    const legs = legsIn(cloth, child, parent, IN);
    expect(legs).toEqual([-run, run]);
    expect(same).toBe(-1);
  });

  it('has no loop linked with its neighbours of the course, of the course below, or two rows below', () => {
    const child = loopAt(cloth, 4, 4);
    for (const [pass, needle] of [[4, 3], [4, 5], [3, 3], [3, 5], [2, 4], [2, 3]] as const) {
      expect([pass, needle, ...legsIn(cloth, child, loopAt(cloth, pass, needle), IN)]).toEqual([pass, needle, 0, 0]);
    }
  });

  it('hangs on a cast-on whose loops cross themselves: the ring turns the other way', () => {
    const child = loopAt(cloth, 1, 4), [parent] = parentsOf(cloth, child), run = runOf(cloth, parent);
    expect(legsIn(cloth, child, parent, IN)).toEqual([run, -run]);
  });
});

describe('1x1 rib', () => {
  const row = needles('front', 1, 9).map(({ needle }) => ({ bed: needle % 2 === 1 ? 'front' as const : 'back' as const, needle }));
  const size = { courseMm: GAUGE.ribCourseMm, waleMm: GAUGE.waleMm };
  const cloth = layCloth([castOn(row), ...rows(5, ['front', 'back'])], flat(size));

  it('mirrors its knit stitches in its purl ones', () => {
    for (const needle of [4, 5, 6]) {
      const child = loopAt(cloth, 3, needle), [parent] = parentsOf(cloth, child), run = runOf(cloth, parent), isPurl = needle % 2 === 0;
      expect(cloth.grid.isPurl[child]).toBe(isPurl ? 1 : 0);
      expect(legsIn(cloth, child, parent, isPurl ? OUT : IN)).toEqual(isPurl ? [run, -run] : [-run, run]);
    }
  });

  it('has no loop linked with its neighbours', () => {
    const child = loopAt(cloth, 3, 5);
    for (const [pass, needle] of [[3, 4], [3, 6], [2, 4], [2, 6], [1, 5]] as const) expect(legsIn(cloth, child, loopAt(cloth, pass, needle), IN)).toEqual([0, 0]);
  });
});

describe('a row of rib gathered on one bed', () => {
  const row = needles('front', 1, 9).map(({ needle }) => ({ bed: needle % 2 === 1 ? 'front' as const : 'back' as const, needle }));
  const moves = row.filter(({ bed }) => bed === 'back').map((from) => ({ from, to: { bed: 'front' as const, needle: from.needle } }));
  const cloth = layCloth([castOn(row), ...rows(4, ['front', 'back']), { do: 'transfer', moves, why: 'gather' }, ...rows(3)], flat({ courseMm: GAUGE.ribCourseMm, waleMm: GAUGE.waleMm }));

  it('is knitted from behind through knit and purl loops alike', () => {
    for (const needle of [4, 5, 6]) {
      const child = loopAt(cloth, 5, needle), [parent] = parentsOf(cloth, child), run = runOf(cloth, parent);
      expect(cloth.grid.isPurl[child]).toBe(0);
      expect(legsIn(cloth, child, parent, IN)).toEqual([-run, run]);
    }
  });
});

describe('a decrease', () => {
  const move = (from: number, to: number) => ({ from: { bed: 'front' as const, needle: from }, to: { bed: 'front' as const, needle: to } });
  const cloth = layCloth([
    castOn(needles('front', 1, 10)), ...rows(4), { do: 'transfer', why: 'decrease', moves: [move(2, 3), move(1, 2), move(9, 8), move(10, 9)] }, ...rows(3),
  ], flat());

  it.each([3, 8])('on needle %d is drawn through both loops of its needle, and the moved edge stitch through one', (needle) => {
    const child = loopAt(cloth, 5, needle), parents = parentsOf(cloth, child), edge = loopAt(cloth, 5, needle === 3 ? 2 : 9);
    expect(parents.length).toBe(2);
    for (const parent of parents) expect(legsIn(cloth, child, parent, IN)).toEqual([-runOf(cloth, parent), runOf(cloth, parent)]);
    expect(parentsOf(cloth, edge).length).toBe(1);
    for (const parent of parentsOf(cloth, edge)) expect(legsIn(cloth, edge, parent, IN)).toEqual([-runOf(cloth, parent), runOf(cloth, parent)]);
  });
});

/**
 * A needle is held for two passes and wrapped between them. A wrap's two ends lie close together on the side of the working needles; tied to each
 * other, it is a ring. Round the held loop: each of its legs, tied far below and far above, links it once, one up and one down.
 */
describe('a wrap', () => {
  const at = (needle: number) => ({ bed: 'front' as const, needle });
  const cloth = layCloth([
    castOn(needles('front', 1, 9)), ...rows(3), { do: 'hold', at: at(9) }, ...rows(1, ['front'], 'left'), { do: 'wrap', at: at(9) },
    ...rows(1), { do: 'return', at: at(9) }, ...rows(3, ['front'], 'left'),
  ], flat());
  const wrap = [...cloth.grid.kind.keys()].find((loop) => cloth.grid.wrapHost[loop] >= 0) as number;
  const host = cloth.grid.wrapHost[wrap], child = cloth.grid.child[host];
  const wrapped = closeFar(loopLine(cloth, wrap), [], []);

  it('lies round both legs of its held loop', () => {
    const [first, second] = (['first', 'second'] as const).map((leg) => {
      const line = loopLine(cloth, host, leg), [foot, head] = [[DOWN, RIGHT], [UP, RIGHT]] as const;
      return linking(wrapped, leg === 'first' ? closeFar(line, head, foot) : closeFar(line, foot, head));
    });
    expect(Math.abs(first)).toBe(1);
    expect(second).toBe(-first);
  });

  it('is knitted off with it: the next loop is drawn through both from behind', () => {
    expect(parentsOf(cloth, child)).toEqual(expect.arrayContaining([wrap, host]));
    expect(legsIn(cloth, child, host, IN)).toEqual([-runOf(cloth, host), runOf(cloth, host)]);
    const [first, second] = (['first', 'second'] as const).map((leg) => linking(wrapped, asLeg(cloth, child, leg, IN)));
    expect(Math.abs(first)).toBe(1);
    expect(second).toBe(-first);
  });

  it('touches no other loop\'s ring', () => {
    for (const [pass, needle] of [[3, 8], [4, 8], [5, 8]] as const) {
      const other = loopAt(cloth, pass, needle);
      for (const leg of ['first', 'second'] as const) expect(linking(wrapped, asLeg(cloth, other, leg, IN))).toBe(0);
    }
  });
});

/** A tube of 12 stitches a bed, its beds a row and a half apart; closed at its last round. Looked at from the front bed's side. */
const tubeSteps = [castOn([...needles('back', 1, 12).reverse(), ...needles('front', 1, 12)], true), ...Array.from({ length: 8 }, (_, i) => rows(1, [i % 2 === 0 ? 'back' : 'front'], i % 2 === 0 ? 'right' : 'left')[0])];
const closingOf = ({ grid }: LaidCloth, needle: number): number => [...grid.kind.keys()].find((loop) => grid.kind[loop] >= 3 && grid.needle[loop] === needle) as number;

/**
 * Derivation: a graft's row is a course of knitting for either side. On the front loops it stands as any course does. Seen from the back bed and upside down, the
 * second leg of a stitch and the first of the next are the legs of a loop drawn through the back loop between them, from behind as well.
 */
describe('a graft', () => {
  const pairs = needles('front', 1, 12).map((front, i) => [front, needles('back', 1, 12)[i]] as const);
  const cloth = layCloth([...tubeSteps, { do: 'graft', pairs, yarn: 1 }], tube(1.5 * GAUGE.waleMm));
  const sideOf = (loop: number): Vector => (cloth.grid.bed[loop] === 0 ? OUT : IN);

  it.each([5, 6, 7])('has stitch %d drawn through its loop of one bed and half of it through two of the other', (needle) => {
    const stitch = closingOf(cloth, needle), before = closingOf(cloth, needle - 1), after = closingOf(cloth, needle + 1);
    const [near, far] = parentsOf(cloth, stitch).sort((a, b) => (cloth.grid.bed[a] === cloth.grid.bed[stitch] ? -1 : 1) - (cloth.grid.bed[b] === cloth.grid.bed[stitch] ? -1 : 1));
    const nearLoop = asHeld(cloth, near), farLoop = asHeld(cloth, far), away = (loop: number): Vector => reverse(sideOf(loop));
    const legs = (['first', 'second'] as const).map((leg) => linking(nearLoop, asLeg(cloth, stitch, leg, away(near))));
    expect(Math.abs(legs[0])).toBe(1);
    expect(legs[1]).toBe(-legs[0]);
    // For the far loop a second leg is the first one of its pair: from the graft's head, which is this one's foot.
    const upsideDown = (loop: number, leg: 'first' | 'second'): Polygon => {
      const line = loopLine(cloth, loop, leg), from = away(far);
      return leg === 'second' ? closeFar(line, [UP, from], [from]) : closeFar(line, [from], [UP, from]);
    };
    const farLegs = [upsideDown(stitch, 'first'), upsideDown(stitch, 'second'), upsideDown(after, 'first'), upsideDown(after, 'second')].map((leg) => linking(farLoop, leg));
    expect(farLegs[0]).toBe(0);
    expect(Math.abs(farLegs[1])).toBe(1);
    expect(farLegs[2]).toBe(-farLegs[1]);
    expect(farLegs[3]).toBe(0);
    expect(linking(nearLoop, asLeg(cloth, before, 'second', away(near)))).toBe(0);
  });
});

/** Each stitch of the chain is drawn through its needle's two loops and the stitch before it, from the far bed's side to the near bed's, and lies along the edge. */
describe('a bind-off', () => {
  const cloth = layCloth([
    ...tubeSteps, { do: 'transfer', why: 'join', moves: needles('back', 1, 12).map((from) => ({ from, to: { bed: 'front', needle: from.needle } })) },
    { do: 'bind-off', needles: needles('front', 1, 12), yarn: 0 },
  ], tube(1.5 * GAUGE.waleMm));

  it.each([4, 5, 6])('has stitch %d drawn through both loops of its needle and the stitch before it', (needle) => {
    const stitch = closingOf(cloth, needle), before = closingOf(cloth, needle - 1), parents = parentsOf(cloth, stitch);
    expect(parents).toContain(before);
    const loops = parents.filter((loop) => loop !== before);
    expect(loops.length).toBe(2);
    for (const loop of loops) {
      const legs = (['first', 'second'] as const).map((leg) => linking(asHeld(cloth, loop), asLeg(cloth, stitch, leg, IN)));
      expect(Math.abs(legs[0])).toBe(1);
      expect(legs[1]).toBe(-legs[0]);
    }
    const chain = asHeld(cloth, before, LEFT), legs = (['first', 'second'] as const).map((leg) => linking(chain, asLeg(cloth, stitch, leg, IN, RIGHT)));
    expect(Math.abs(legs[0])).toBe(1);
    expect(legs[1]).toBe(-legs[0]);
    const beyond = asHeld(cloth, closingOf(cloth, needle - 2), LEFT);
    for (const leg of ['first', 'second'] as const) expect(linking(beyond, asLeg(cloth, stitch, leg, IN, RIGHT))).toBe(0);
  });
});

/**
 * A leg in rib, bent to a tube and sewn. Where the yarn goes up from one row to the next at an edge, it is tied far off on its own side: the seam's stitch there, its two ends
 * tied to each other, goes round it once; on alternate sides, and no stitch goes round the yarn of the rows beside its own.
 */
describe('a seam', () => {
  const stitches = 16, radius = (stitches * GAUGE.ribCourseMm) / (2 * Math.PI);
  const row = needles('front', 1, stitches).map(({ needle }) => ({ bed: needle % 2 === 1 ? 'front' as const : 'back' as const, needle }));
  const turnOf = (needle: number): number => (2 * Math.PI * (needle - 0.5)) / stitches;
  // The outside shows to the eye that looks at the axis; high needles to the right.
  const cloth = layCloth([castOn(row), ...rows(9, ['front', 'back']), { do: 'seam', fromPass: 0, toPass: 9 }], (grid, loop) =>
    [radius * sin(turnOf(grid.needle[loop])), grid.pass[loop] * GAUGE.waleMm, radius * cos(turnOf(grid.needle[loop]))]);
  const { grid, lay } = cloth, { thread } = lay, sewn = [...thread.part.keys()].filter((piece) => thread.part[piece] === PART.seam);
  const stitchRing = (piece: number): Polygon => closeFar(centreLine(lay, piece - 1, piece + 1, 8).slice(3 * 8 * 10.5, 3 * (8 * 22.5 + 1)), [], []);

  /** The yarn between the last loop of a row and the first of the next, two control points either way. */
  const edgeYarn = (first: number): Polygon => {
    const piece = thread.loopPiece[first], line = centreLine(lay, piece - 1, piece + 1, 8).slice(3 * 8 * 8.5, 3 * (8 * 12.5 + 1)), side: Vector = grid.needle[first] === 1 ? RIGHT : LEFT;
    // Beside the seam, at turn 0, the course runs along x.
    return closeFar(line, [side], [side]);
  };

  it('goes round the edge between every two rows, on alternate sides', () => {
    const rounds = sewn.slice(0, -1).map((piece) => {
      const first = thread.loop[piece], before = grid.yarnBefore[first];
      expect(grid.kind[before]).toBeLessThanOrEqual(LOOP.knit);
      return [grid.needle[first], Math.abs(linking(stitchRing(piece), edgeYarn(first)))];
    });
    expect(rounds.map(([, times]) => times)).toEqual(rounds.map(() => 1));
    rounds.slice(1).forEach(([needle], i) => { expect(needle).not.toBe(rounds[i][0]); });
    expect(rounds.length).toBe(9);
  });

  it('goes round no edge of another row', () => {
    sewn.slice(2, -2).forEach((piece, i) => {
      for (const other of [sewn[i + 1], sewn[i + 3]]) expect(linking(stitchRing(piece), edgeYarn(thread.loop[other]))).toBe(0);
    });
  });
});
