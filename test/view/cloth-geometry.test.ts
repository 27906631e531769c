import { beforeAll, describe, expect, it } from 'vitest';
import type { Fabric } from '../../src/fabric/fabric.ts';
import { LOOP } from '../../src/machine/codes.ts';
import type { StitchGrid } from '../../src/machine/grid.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { buildCloth, CELL_HEM, type ClothGeometry } from '../../src/view/cloth-geometry.ts';
import { linearColour, woolColours } from '../../src/view/colour.ts';
import { LOOK, packLooksInto } from '../../src/view/loop-looks.ts';
import { CORNER_STRIDE } from '../../src/view/stitch-frames.ts';
import { findWraps } from '../../src/view/wrap-bars.ts';
import { makeTube } from './tube-cloth.ts';

interface Case { readonly fabric: Fabric; readonly grid: StitchGrid }

function knitted(file: SockFile): KnittedSock {
  const { sock, problems } = knitSock(file);
  if (!sock) throw new Error(JSON.stringify(problems));
  return sock;
}

const SIZE = { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 240, ballGirthMm: 230 } };
const CASES: Readonly<Record<string, () => Case>> = {
  'a tube with rib, decreases and a joined tip': () => makeTube({ stitches: 48, ribRounds: 8, plainRounds: 12, decreases: 4, stripe: 4 }),
  'a sock with rib, heel and decreased toe': () => knitted(SIZE),
  'a sock with a short-row toe and a tube leg': () => knitted({ ...SIZE, leg: { kind: 'tube', lengthMm: 60 }, toe: { kind: 'short-row' } }),
};

function forEachCorner(fabric: Fabric, visit: (corner: number, next: number, prev: number) => void): void {
  for (let cell = 0; cell + 1 < fabric.cellStart.length; cell++) {
    const from = fabric.cellStart[cell], n = fabric.cellStart[cell + 1] - from;
    for (let i = 0; i < n; i++) visit(from + i, from + ((i + 1) % n), from + ((i + n - 1) % n));
  }
}

/** How far corner `other` is from where its loop should stand in corner `k`'s frame; null if the two are no neighbours by course or wale. */
function stepError({ fabric, grid }: Case, cloth: ClothGeometry, k: number, other: number): number | null {
  const loop = fabric.vertexLoop[fabric.cellVertices[k]], to = fabric.vertexLoop[fabric.cellVertices[other]];
  const steps: readonly (readonly [boolean, number, number])[] = [
    [grid.child[loop] === to, 0, 1], [grid.child[to] === loop, 0, -1], [grid.rightOf[loop] === to, 1, 0], [grid.leftOf[loop] === to, -1, 0],
  ];
  const step = steps.find(([isIt]) => isIt);
  if (!step) return null;
  const at = CORNER_STRIDE * k, m = cloth.corners;
  const dx = cloth.rest[2 * other] - m[at], dy = cloth.rest[2 * other + 1] - m[at + 1];
  return Math.hypot(m[at + 2] * dx + m[at + 3] * dy - step[1], m[at + 4] * dx + m[at + 5] * dy - step[2]);
}

describe.each(Object.entries(CASES))('buildCloth of %s', (_, make) => {
  let given: Case;
  let cloth: ClothGeometry;
  beforeAll(() => { given = make(); cloth = buildCloth(given.fabric, given.grid); });

  it('draws every loop of the cloth', () => {
    const drawn = new Set(Array.from(cloth.index, (i) => cloth.source[i]));
    expect(drawn.size).toBe(given.fabric.vertexCount);
  });

  it('keeps all indices in range', () => {
    expect(Math.max(...cloth.index)).toBeLessThan(cloth.vertexCount);
    expect(cloth.index.length).toBe(cloth.kindStart[cloth.kindStart.length - 1]);
    expect([...cloth.source, ...cloth.quadOf].every((v) => v >= 0 && v < given.fabric.vertexCount)).toBe(true);
    const ends = Array.from(cloth.source, (_, i) => cloth.cellOf[2 * i] + (cloth.cellOf[2 * i + 1] & 255));
    expect(CORNER_STRIDE * Math.max(...ends)).toBeLessThanOrEqual(cloth.corners.length);
  });

  // A polygon of n corners has n - 2 triangles; the hem has two for each boundary edge (combinatorics).
  it('cuts every cell into as many triangles as its corners ask', () => {
    const { cellStart, cellVertices, boundaryVertices } = given.fabric;
    expect(cloth.index.length / 3).toBe(cellVertices.length - 2 * (cellStart.length - 1) + 2 * boundaryVertices.length);
  });

  it('lets every triangle lie in one cell', () => {
    const cellOf = (i: number): number => cloth.cellOf[2 * cloth.index[i]];
    const torn = Array.from(cloth.index.keys()).filter((i) => cellOf(i) !== cellOf(i - (i % 3)));
    expect(torn).toEqual([]);
  });

  it('makes a course or wale edge at every corner a unit step of its loop\'s frame', () => {
    const misfits: number[] = [];
    // Where a graft meets a wale in one straight corner only one of the two can fit.
    const joined = new Set(Array.from(given.grid.joinPairs, (loop) => given.fabric.loopVertex[loop]));
    let exact = 0;
    forEachCorner(given.fabric, (k, next, prev) => {
      const offs = [next, prev].map((other) => stepError(given, cloth, k, other)).filter((off) => off !== null);
      if (offs.length > 0 && Math.min(...offs) > 1e-5 && !joined.has(given.fabric.cellVertices[k])) misfits.push(k);
      exact += offs.filter((off) => off < 1e-5).length;
    });
    expect(misfits).toEqual([]);
    expect(exact).toBeGreaterThan(0.99 * 2 * given.fabric.cellVertices.length);
  });

  it('carries a hem along every boundary loop', () => {
    const hem = new Set<number>();
    for (let i = 0; i < cloth.vertexCount; i++) if ((cloth.cellOf[2 * i + 1] & CELL_HEM) !== 0) hem.add(cloth.source[i]);
    expect([...hem].sort((a, b) => a - b)).toEqual([...given.fabric.boundaryVertices].sort((a, b) => a - b));
  });

  it('packs each loop its own yarn and look', () => {
    const { fabric, grid } = given, colours = woolColours(['#204080', '#e0c040', '#803020']);
    const words = new Uint32Array(fabric.vertexCount);
    packLooksInto(words, cloth.looks, fabric, grid, colours);
    const wrong = Array.from(words.keys()).filter((v) => {
      const loop = fabric.vertexLoop[v], rgb = colours[grid.yarn[loop]];
      const isPurl = ((words[v] >>> 24) & LOOK.purl) !== 0;
      // Its own variation is 2.5 % either way, and a byte's root step up to 4 % of the darkest channel here.
      const isOff = rgb.some((c, d) => Math.abs((((words[v] >>> (8 * d)) & 255) / 255) ** 2 / c - 1) > 0.07);
      return isOff || isPurl !== (grid.isPurl[loop] === 1);
    });
    expect(wrong).toEqual([]);
  });
});

describe('looks', () => {
  it('mark the loops of every decrease, the moved one over the other', () => {
    const { fabric, grid, trace } = knitted(SIZE), { looks } = buildCloth(fabric, grid);
    let stacks = 0;
    for (let loop = 0; loop < grid.loopCount; loop++) {
      const parents = Array.from(grid.parents.subarray(grid.parentStart[loop], grid.parentStart[loop + 1])).filter((p) => grid.kind[p] !== LOOP.wrap);
      if (parents.length < 2 || fabric.loopVertex[loop] < 0) continue;
      const bits = parents.map((p) => looks[fabric.loopVertex[p]] & (LOOK.stackedOver | LOOK.stackedUnder));
      expect(bits).toContain(LOOK.stackedOver);
      expect(bits).toContain(LOOK.stackedUnder);
      stacks++;
    }
    expect(stacks).toBe(trace.decreases);
    expect(looks.filter((bits) => (bits & LOOK.stackedUnder) !== 0)).toHaveLength(stacks);
  });

  it('find a bar for every wrap of the grid', () => {
    const { fabric, grid, plan, trace } = knitted(SIZE);
    const wraps = findWraps(fabric, grid);
    // One wrap for each turning-down pass, H - W (the sock's counting rules), and two corner wraps.
    expect(trace.cornerWraps).toBe(2);
    expect(wraps).toHaveLength(plan.heelStitches - plan.turnDownWidth + 2);
    for (const wrap of wraps) expect(fabric.vertexLoop[wrap.host]).toBe(grid.wrapHost[wrap.loop]);
  });
});

describe('linearColour', () => {
  // IEC 61966-2-1: 0 and 255 are the ends, 188 is 50.3 % light.
  it.each([['#000000', 0], ['#ffffff', 1], ['#bcbcbc', 0.5029]])('%s', (hex, light) => {
    for (const channel of linearColour(hex)) expect(channel).toBeCloseTo(light, 4);
  });
  it('takes the short form', () => { expect(linearColour('#3af')).toEqual(linearColour('#33aaff')); });
});
