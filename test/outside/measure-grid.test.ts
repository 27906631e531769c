import { describe, expect, it } from 'vitest';
import type { Fabric, MarkPath } from '../../src/fabric/fabric.ts';
import { LOOP, SECTION } from '../../src/machine/codes.ts';
import type { StitchGrid } from '../../src/machine/grid.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

/**
 * The closed formulas of the rest measures against lengths walked along the knitted grid, loop by
 * loop, and the angles of the cells' rest shapes against the angles of the folded trapezoids that a
 * short-row heel is. Source: geometry. A tube is a helix and the left and right turns of a heel
 * differ by a row, so walked lengths may differ from the formulas by two rows.
 */
const GAUGES = [{ stitchesPer10cm: 30, rowsPer10cm: 42 }, { stitchesPer10cm: 20, rowsPer10cm: 28 }, { stitchesPer10cm: 31.5, rowsPer10cm: 39.4 }];

const SOCKS: readonly (readonly [string, SockFile])[] = [
  ...GAUGES.flatMap((gauge): (readonly [string, SockFile])[] => [
    [`rib leg, ${String(gauge.stitchesPer10cm)} x ${String(gauge.rowsPer10cm)}`, {
      gauge, counts: { stitches: 72, legPasses: 31, footPasses: 80 }, heel: { turnDownWidth: 12 }, toe: { tipStitches: 12 },
    }],
    [`tube leg, short-row toe, ${String(gauge.stitchesPer10cm)} x ${String(gauge.rowsPer10cm)}`, {
      gauge, counts: { stitches: 64, legPasses: 30, footPasses: 70 }, leg: { kind: 'tube' },
      heel: { turnDownWidth: 10 }, toe: { kind: 'short-row', tipStitches: 8 },
    }],
  ]),
  ['a deep heel', { gauge: GAUGES[0], counts: { stitches: 72, legPasses: 10, footPasses: 60 }, heel: { turnDownWidth: 6, wraps: false }, toe: { passesPerDecrease: 2 } }],
  ['a shallow heel', { gauge: GAUGES[0], counts: { stitches: 72, legPasses: 10, footPasses: 60 }, heel: { turnDownWidth: 24 }, toe: { closing: 'bind-off' } }],
  ['a plateau', { gauge: GAUGES[0], counts: { stitches: 72, legPasses: 10, footPasses: 60 }, heel: { turnDownWidth: 12, plateauPasses: 6 } }],
  ['a heel on 44 of 72', { gauge: GAUGES[0], counts: { stitches: 72, legPasses: 10, footPasses: 60 }, heel: { stitches: 44 } }],
  ['a heel on 40 of 72 with a plateau, tube leg, short-row toe', {
    gauge: GAUGES[1], counts: { stitches: 72, legPasses: 10, footPasses: 60 }, leg: { kind: 'tube' }, heel: { stitches: 40, turnDownWidth: 12, plateauPasses: 4 }, toe: { kind: 'short-row' },
  }],
  ['a toe slanted by 6', { gauge: GAUGES[0], counts: { stitches: 72, legPasses: 10, footPasses: 60 }, toe: { slantStitches: 6 } }],
  ['a toe of two rates', { gauge: GAUGES[0], counts: { stitches: 72, legPasses: 10, footPasses: 60 }, toe: { schedule: [{ passes: 4, times: 6 }, { passes: 2, times: 5 }] } }],
];

describe.each(SOCKS)('%s', (_name, file) => {
  const sock = knit(file);
  const { plan, grid, fabric, rest } = sock;
  const twoRows = 2 / plan.rowsPerMm + 1e-9;
  const isNear = (walked: number, expected: number | null): void => {
    expect(Math.abs(walked - (expected ?? NaN))).toBeLessThanOrEqual(twoRows);
  };

  it('is as long, wale for wale, as the formulas say', () => {
    const wale = waleThrough(grid, fabric, fabric.marks!.baseMiddle.a[0]);
    const rows = (...sections: number[]): number => wale.filter((loop) => sections.includes(grid.section[loop])).length / plan.rowsPerMm;
    const down = rows(SECTION['heel-in']) + rows(SECTION['heel-level']) / 2;
    const toe = plan.toeKind === 'short-row' ? rows(SECTION['toe-in']) : rows(SECTION.toe);
    isNear(down, rest.heelDepthMm);
    isNear(toe, rest.toeLengthMm);
    isNear(down + rows(SECTION.foot) + toe, rest.footLengthMm);
    isNear(rows(SECTION.leg), rest.legLengthMm);
  });

  it('is as wide, round for round and at the tip, as the formulas say', () => {
    const foot = [...grid.section.keys()].filter((loop) => grid.section[loop] === SECTION.foot && grid.kind[loop] === LOOP.knit);
    const passes = new Set(foot.map((loop) => grid.pass[loop])).size;
    isNear((2 * foot.length) / passes / plan.stitchesPerMm, rest.footGirthMm);
    const tipSection = plan.toeKind === 'short-row' ? SECTION['toe-in'] : SECTION.toe;
    const tip = [...grid.section.keys()].filter((loop) => grid.section[loop] === tipSection && grid.kind[loop] === LOOP.knit);
    const last = tip.filter((loop) => grid.pass[loop] === grid.pass[tip[tip.length - 1]]);
    isNear(last.length / plan.stitchesPerMm, rest.toeTipWidthMm);
  });

  it('has a marked diagonal as long as instep, mitres, plateau and base', () => {
    isNear(restLength(fabric, fabric.marks!.heelDiagonal), rest.heelDiagonalMm);
  });

  it('has 2 theta of cloth too much at each heel corner and too little at each end of the short base', () => {
    const theta = Math.atan2(2 / plan.rowsPerMm, 1 / plan.stitchesPerMm);
    // A heel on more than half of the stitches has its corners as far forward as it is wide.
    const corner = plan.heelStitches / 2;
    for (const side of [-1, 1]) {
      expect(restDeficit(sock, side * corner)).toBeCloseTo(-2 * theta, 6);
      expect(restDeficit(sock, side * (plan.turnDownWidth / 2))).toBeCloseTo(2 * theta, 6);
    }
  });
});

function knit(file: SockFile): KnittedSock {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  return sock;
}

/** Loops above and below a vertex's, from the cast-on up, each drawn through the one before. */
function waleThrough(grid: StitchGrid, fabric: Fabric, vertex: number): number[] {
  const wale: number[] = [];
  const start = fabric.vertexLoop[vertex];
  for (let loop = start; loop !== -1; loop = grid.parents[grid.parentStart[loop]] ?? -1) {
    wale.unshift(loop);
    if (grid.parentStart[loop] === grid.parentStart[loop + 1]) break;
  }
  for (let loop = grid.child[start]; loop !== -1 && grid.kind[loop] === LOOP.knit; loop = grid.child[loop]) wale.push(loop);
  return wale;
}

/** Length of a line of vertices on the unstretched cloth: along edges, or straight through the cell that two of them share. */
function restLength(fabric: Fabric, path: MarkPath): number {
  const known = new Map<string, number>();
  const key = (v: number, w: number): string => `${String(Math.min(v, w))} ${String(Math.max(v, w))}`;
  for (let c = 0; c + 1 < fabric.cellStart.length; c++) {
    for (let i = fabric.cellStart[c]; i < fabric.cellStart[c + 1]; i++) {
      for (let j = fabric.cellStart[c]; j < i; j++) {
        const across = Math.hypot(
          fabric.cellRestMm[2 * i] - fabric.cellRestMm[2 * j], fabric.cellRestMm[2 * i + 1] - fabric.cellRestMm[2 * j + 1],
        );
        known.set(key(fabric.cellVertices[i], fabric.cellVertices[j]), across);
      }
    }
  }
  fabric.edgeRestMm.forEach((length, e) => known.set(key(fabric.edges[2 * e], fabric.edges[2 * e + 1]), length));
  let length = 0;
  path.a.forEach((v, i) => {
    if (i > 0 || path.isClosed) length += known.get(key(path.a.at(i - 1)!, v)) ?? NaN;
  });
  return length;
}

/** Sum of 2 pi less the rest angles at the vertices within three wales of a place (stitches from the centre back) about the heel. */
function restDeficit({ plan, fabric }: KnittedSock, place: number): number {
  const deficit = new Float64Array(fabric.vertexCount).fill(2 * Math.PI);
  for (let c = 0; c + 1 < fabric.cellStart.length; c++) {
    const [start, end] = [fabric.cellStart[c], fabric.cellStart[c + 1]];
    for (let i = start; i < end; i++) deficit[fabric.cellVertices[i]] -= restAngle(fabric, i === start ? end - 1 : i - 1, i, i + 1 === end ? start : i + 1);
  }
  const heelRow = fabric.vertexRow[fabric.marks!.instepAtHeel.a[0]];
  let sum = 0;
  for (let v = 0; v < fabric.vertexCount; v++) {
    const at = fabric.vertexAround[v] * plan.stitches;
    const away = Math.abs(at - place - plan.stitches * Math.round((at - place) / plan.stitches));
    const isHeel = fabric.vertexSection[v] >= SECTION.ankle && fabric.vertexSection[v] <= SECTION.foot;
    if (isHeel && away < 3 && Math.abs(fabric.vertexRow[v] - heelRow) <= 1) sum += deficit[v];
  }
  return sum;
}

function restAngle({ cellRestMm: at }: Fabric, before: number, corner: number, after: number): number {
  const [ux, uy] = [at[2 * before] - at[2 * corner], at[2 * before + 1] - at[2 * corner + 1]];
  const [vx, vy] = [at[2 * after] - at[2 * corner], at[2 * after + 1] - at[2 * corner + 1]];
  const angle = Math.atan2(vx * uy - vy * ux, vx * ux + vy * uy);
  return angle < -1e-9 ? angle + 2 * Math.PI : angle;
}
