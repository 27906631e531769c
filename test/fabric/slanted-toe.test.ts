import { describe, expect, test } from 'vitest';
import { buildFabric, stitchSizeOf } from '../../src/fabric/build-fabric.ts';
import { NEEDLE, SECTION } from '../../src/machine/codes.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import type { Trace } from '../../src/machine/trace.ts';
import { buildProgram } from '../../src/plan/build-program.ts';
import { mirrorProgram } from '../../src/plan/mirror-program.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { FootSide, SockFile } from '../../src/plan/sock-file.ts';

const KINDS: Record<string, Partial<SockFile>> = {
  'heel on the front bed': {},
  'heel on the back bed': { leg: { gatherBed: 'front' } },
  'tube leg, wide heel': { leg: { kind: 'tube' }, heel: { stitches: 24 } },
};

function knit(side: FootSide, changes: Partial<SockFile>) {
  const { plan } = planSock({
    gauge: { stitchesPer10cm: 14, rowsPer10cm: 20 }, counts: { stitches: 40, legPasses: 8, footPasses: 20 }, foot: { side },
    toe: { slantStitches: 6, tipStitches: 6, passesPerDecrease: 2 }, machine: { needlesPerBed: 60 }, ...changes,
  });
  const program = buildProgram(plan!), { grid, trace } = knitProgram(program);
  return { plan: plan!, program, grid: grid!, trace: trace!, fabric: buildFabric(grid!, stitchSizeOf(plan!)) };
}

/** Places around the foot of the needles that the tip's stitches of one bed are on; 0.25 is the sock's left. */
function tipPlaces({ grid, fabric, plan }: ReturnType<typeof knit>): number[] {
  const last = plan.legPasses + plan.plainPasses + plan.anklePasses + plan.heelPasses + plan.footPasses + plan.toePasses;
  // The last pass but one is the instep bed's.
  return Array.from(fabric.vertexLoop).filter((loop) => grid.pass[loop] === last - 1).map((tip) => {
    const ofFoot = grid.section.findIndex((section, loop) => section === SECTION.foot && grid.bed[loop] === grid.bed[tip] && grid.needle[loop] === grid.needle[tip]);
    return fabric.vertexAround[fabric.loopVertex[ofFoot]];
  });
}

/** First and last needle in work, pass by pass, of both beds in the toe. */
function toeSpans({ trace }: { readonly trace: Trace }): number[][] {
  return trace.passes.filter((record) => record.section === 'toe').map(({ pass }) => [0, 1].flatMap((bed) => {
    const start = (2 * pass + bed) * trace.needlesPerBed, states = [...trace.needleStates.subarray(start, start + trace.needlesPerBed)];
    return [states.findIndex((state) => state !== NEEDLE.empty) + 1, states.length - [...states].reverse().findIndex((state) => state !== NEEDLE.empty)];
  }));
}

describe.each(Object.entries(KINDS))('%s', (_, changes) => {
  const right = knit('right', changes), left = knit('left', changes);

  // Anatomy: the great toe is on the side of the other foot.
  test.each([['right', right, -1], ['left', left, 1]] as const)('the tip of a %s sock lies towards the great toe', (_side, sock, sign) => {
    const places = tipPlaces(sock);
    expect(places).toHaveLength(6);
    // 10 stitches go on the outer side and 4 on the inner: the middle moves by 3 of 40.
    const middle = places.reduce((sum, place) => sum + place, 0) / places.length;
    expect(middle - 0.5).toBeCloseTo(sign * 3 / 40, 9);
  });

  test('left and right are mirror images: every pass of the toe works the mirrored needles', () => {
    const mirrored = knitProgram(mirrorProgram(right.program));
    expect(toeSpans(left)).toEqual(toeSpans(mirrored as { trace: Trace }));
    expect({ ...left.trace, passes: 0, needleStates: 0 }).toEqual({ ...right.trace, passes: 0, needleStates: 0 });
  });
});

test('a sock without a slant is the same for both feet', () => {
  const of = (side: FootSide) => knit(side, { toe: { tipStitches: 6 } }).program;
  expect(of('left')).toEqual(of('right'));
});

/** Geometry: the fold of a round lies half-way between its ends, and over a slanted toe goes over to the great toe's side. */
test('places over the toe are counted from the middle of each round', () => {
  const { fabric, grid, plan } = knit('right', {});
  const rounds = new Map<number, number[]>();
  fabric.vertexAround.forEach((turn, v) => {
    if (fabric.vertexSection[v] !== SECTION.toe) return;
    const pass = grid.pass[fabric.vertexLoop[v]];
    rounds.set(pass, [...rounds.get(pass) ?? [], turn]);
  });
  expect(rounds.size).toBe(plan.toePasses);
  for (const turns of rounds.values()) {
    const middle = turns.reduce((sum, turn) => sum + (turn > 0.75 ? turn - 1 : turn), 0) / turns.length;
    expect(Math.min(Math.abs(middle), Math.abs(middle - 0.5))).toBeLessThan(1e-9);
  }
});
