import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import { firstYarn } from '../../src/view/nearest-yarn.ts';
import { layYarn } from '../../src/yarn/lay-yarn.ts';
import { centreLine } from '../../src/yarn/spline.ts';
import { threadYarn } from '../../src/yarn/thread-yarn.ts';
import { vertexNormals } from '../../src/yarn/vertex-normals.ts';

const { sock } = knitSock({ gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 24, legPasses: 6, footPasses: 8 }, heel: { turnDownWidth: 6 } });
const { fabric, grid } = sock!, { positions } = poseSock(sock!, 'tube').pose, RADIUS = 0.45;
const lay = layYarn({ fabric, grid, thread: threadYarn(grid), diameterMm: Float64Array.of(2 * RADIUS) }, positions), normals = vertexNormals(fabric, positions);
const REACH = 4 * fabric.courseMm;

/** Points of every piece's own stretch of the drawn line, 24 to a span, three entries each. */
const { thread } = lay, lines = Array.from({ length: thread.pieceCount }, (_, piece) => centreLine(lay, piece, piece + 1, 24));

interface Shot { readonly origin: readonly number[]; readonly direction: readonly number[]; readonly near: readonly number[] }

/** From outside onto a place beside a stitch, a little aslant. */
function shootAt(vertex: number, random: () => number): Shot {
  const n = [0, 1, 2].map((d) => normals[3 * vertex + d]), near = [0, 1, 2].map((d) => positions[3 * vertex + d] + 1.6 * (random() - 0.5));
  const raw = n.map((value) => -value + 0.5 * (random() - 0.5)), length = Math.hypot(...raw), direction = raw.map((value) => value / length);
  return { origin: near.map((value, d) => value - 20 * direction[d]), direction, near };
}

function isWithin(line: Float64Array, [x, y, z]: readonly number[]): boolean {
  for (let i = 0; i < line.length; i += 3) if ((line[i] - x) ** 2 + (line[i + 1] - y) ** 2 + (line[i + 2] - z) ** 2 < RADIUS * RADIUS) return true;
  return false;
}

/** The first yarn on the way, by going along the ray in steps of a hundredth of a mm and looking for a drawn line within the yarn's radius. */
function march({ origin, direction, near }: Shot): { readonly piece: number; readonly depth: number } | null {
  const close = lines.flatMap((line, piece) => (Math.hypot(...[0, 1, 2].map((d) => line[3 * Math.floor(line.length / 6) + d] - near[d])) < REACH ? [{ line, piece }] : []));
  for (let depth = 12; depth < 32; depth += 0.01) {
    const at = [0, 1, 2].map((d) => origin[d] + depth * direction[d]), hit = close.find(({ line }) => isWithin(line, at));
    if (hit !== undefined) return { piece: hit.piece, depth };
  }
  return null;
}

describe('the first yarn that a ray meets', () => {
  const random = createRandom(7), vertices = Array.from({ length: 40 }, (_, i) => Math.floor(((i + 0.5) * fabric.vertexCount) / 40));
  const shots = vertices.map((vertex) => shootAt(vertex, random));

  it('is the one that small steps along the ray come to', () => {
    let met = 0, alike = 0;
    for (const shot of shots) {
      const known = march(shot), found = firstYarn(lay, { ...shot, lowestY: -Infinity }, shot.near, REACH);
      if (known === null) continue;
      met += 1;
      if (found === known.piece) alike += 1;
      // Where one piece goes over into the next, either is right.
      else expect(Math.abs(found - known.piece), JSON.stringify(shot.near)).toBe(1);
    }
    expect(met).toBeGreaterThan(30);
    expect(alike / met).toBeGreaterThan(0.9);
  });

  it('is none of what is cut away', () => {
    for (const shot of shots) {
      const found = firstYarn(lay, { ...shot, lowestY: Infinity }, shot.near, REACH);
      expect(found).toBe(-1);
    }
    const [aside] = shots.map((shot) => ({ ...shot, origin: shot.origin.map((value) => value + 500) }));
    expect(firstYarn(lay, { ...aside, lowestY: -Infinity }, aside.near, REACH)).toBe(-1);
  });
});
