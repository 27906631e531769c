import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { PIECE_POINTS, POINT_STRIDE } from '../../src/yarn/yarn-lay.ts';
import { BLOCK_PIECES, boundBlocks, gatherPieces } from '../../src/view/yarn-blocks.ts';
import { fadeAt, restAt, YarnFade } from '../../src/view/yarn-fade.ts';
import { FADE_PIXELS, levelFor, MIDDLE_PIXELS, trianglesOf, YARN_LEVELS } from '../../src/view/yarn-levels.ts';
import { tubeOf } from '../../src/view/yarn-tube.ts';

const PIECES = 45, RADIUS = 0.4;

/** Control points of yarn that wanders along x, from -45 to 45 mm. */
function wander(): Float32Array {
  const random = createRandom(7), points = new Float32Array(POINT_STRIDE * PIECE_POINTS * PIECES);
  for (let i = 0; i < PIECE_POINTS * PIECES; i++) {
    points.set([-45 + (90 * i) / (PIECE_POINTS * PIECES) + 6 * random(), 20 * random(), 20 * random()], POINT_STRIDE * i);
  }
  return points;
}

const all = (count: number): number[] => Array.from({ length: count }, (_, i) => i);

describe('pieces of yarn in sight', () => {
  const points = wander(), spheres = boundBlocks(points, PIECES, RADIUS);

  it('are all of them, each once, where nothing bounds the picture', () => {
    const out = new Uint32Array(PIECES);
    expect(gatherPieces(out, spheres, PIECES, [])).toBe(PIECES);
    expect(Array.from(out)).toEqual(all(PIECES));
  });

  it('leave out no piece that has a point within the picture, and some that have none', () => {
    // Everything beyond the plane x = 20, as a brute-force look at every point has it.
    const planes = [1, 0, 0, -20], out = new Uint32Array(PIECES), count = gatherPieces(out, spheres, PIECES, planes), kept = new Set(out.subarray(0, count));
    const within = all(PIECES).filter((piece) => all(PIECE_POINTS).some((k) => points[POINT_STRIDE * (PIECE_POINTS * piece + k)] + RADIUS > 20));
    for (const piece of within) expect(kept.has(piece), `piece ${piece}`).toBe(true);
    expect(kept.size).toBe(count);
    expect(within.length).toBeGreaterThan(0);
    expect(count).toBeLessThan(PIECES);
  });

  it('have all their control points, and the three that their yarn shares with the next, in their block\'s sphere', () => {
    for (let i = 0; i < PIECE_POINTS * PIECES; i++) {
      for (const piece of new Set([Math.floor(i / PIECE_POINTS), Math.floor(Math.max(0, i - 3) / PIECE_POINTS)])) {
        const at = 4 * Math.floor(piece / BLOCK_PIECES), away = [0, 1, 2].map((d) => points[POINT_STRIDE * i + d] - spheres[at + d]);
        expect(Math.hypot(...away)).toBeLessThanOrEqual(spheres[at + 3] - RADIUS + 1e-9);
      }
    }
  });
});

describe('a tube', () => {
  it.each(YARN_LEVELS)('of $segments by $sides is closed all round and faces outwards', (level) => {
    const { segments, sides } = level, { places, index } = tubeOf(level);
    expect(index.length / 3).toBe(trianglesOf(level));
    // Each edge within the tube has a triangle on either side, run through the other way; the rings at its ends have one.
    const sidesOfEdge = new Map<string, number>();
    for (let t = 0; t < index.length; t += 3) {
      for (let k = 0; k < 3; k++) {
        const a = index[t + k], b = index[t + ((k + 1) % 3)];
        sidesOfEdge.set(`${a},${b}`, (sidesOfEdge.get(`${a},${b}`) ?? 0) + 1);
      }
    }
    let open = 0;
    for (const [edge, count] of sidesOfEdge) {
      expect(count).toBe(1);
      if (!sidesOfEdge.has(edge.split(',').reverse().join(','))) open++;
    }
    expect(open).toBe(2 * sides);
    // As the shader places them: along x, and round it from z to the cross product of x and z.
    const at = (i: number): number[] => { const angle = 2 * Math.PI * places[2 * i + 1]; return [places[2 * i], -Math.sin(angle), Math.cos(angle)]; };
    for (let t = 0; t < index.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => at(index[t + k])), u = b.map((v, d) => v - a[d]), w = c.map((v, d) => v - a[d]);
      expect((u[2] * w[0] - u[0] * w[2]) * a[1] + (u[0] * w[1] - u[1] * w[0]) * a[2]).toBeGreaterThan(0);
    }
    expect(Math.max(...places.filter((_, i) => i % 2 === 0))).toBe(PIECE_POINTS);
    expect(places.length).toBe(2 * (segments + 1) * sides);
  });
});

describe('how finely yarn is drawn', () => {
  it('never takes more triangles than it may, and no more than its size calls for', () => {
    const most = 1_300_000;
    for (const pieces of [10, 900, 3000, 9500, 30_000]) {
      for (const pixels of [12, 25, 60, 130, 900]) {
        const level = levelFor(pixels, pieces, Infinity, most);
        if (level < 0) { expect(pieces * trianglesOf(YARN_LEVELS[0])).toBeGreaterThan(most); continue; }
        expect(pieces * trianglesOf(YARN_LEVELS[level])).toBeLessThanOrEqual(most);
        expect(YARN_LEVELS[level].from).toBeLessThanOrEqual(pixels);
      }
    }
    expect(levelFor(900, 10, 1, most)).toBe(1);
    expect(levelFor(900, 10, -1, most)).toBe(-1);
  });
});

describe('the way from mesh to yarn', () => {
  const [from, to] = FADE_PIXELS, [low, high] = MIDDLE_PIXELS;

  it('lets the yarn come before the mesh goes, and nothing shine through', () => {
    for (let place = 0; place <= 1; place += 1 / 64) {
      const { yarn, mesh } = fadeAt(place);
      expect(Math.max(yarn, mesh)).toBe(1);
      expect(Math.min(yarn, mesh)).toBeGreaterThanOrEqual(0);
    }
    expect([fadeAt(0), fadeAt(0.5), fadeAt(1)]).toEqual([{ yarn: 0, mesh: 1 }, { yarn: 1, mesh: 1 }, { yarn: 1, mesh: 0 }]);
  });

  it('follows the zoom in motion without a leap, in and out', () => {
    const fade = new YarnFade(), zoom = [...steps(8, 20), ...steps(20, 8)], places = zoom.map((pixels, i) => fade.next(pixels, 'moving', 16 * i));
    expect(Math.max(...places.map((place, i) => Math.abs(place - (places[i - 1] ?? 0))))).toBeLessThan(0.08);
    zoom.forEach((pixels, i) => { if (pixels <= from || pixels >= to) expect(places[i]).toBe(pixels <= from ? 0 : 1); });
  });

  it.each([8, 11.5, 12, 13, 13.5, 13.75, 14, 14.5, 15, 16, 20])('rests as mesh or as yarn at %d pixels, within a quarter of a second, and starts again from there', (pixels) => {
    for (const begin of [8, 20]) {
      const fade = new YarnFade();
      for (const now of [...steps(begin, pixels), pixels]) fade.next(now, 'moving', 0);
      const before = fade.next(pixels, 'moving', 0), places = Array.from({ length: 18 }, (_, i) => fade.next(pixels, 'resting', 16 * (i + 1)));
      expect([0, 1]).toContain(places.at(-1));
      expect(fade.isRunning).toBe(false);
      // Frames of 16 ms: none of them sees it leap.
      places.forEach((place, i) => { expect(Math.abs(place - (places[i - 1] ?? before))).toBeLessThan(0.07); });
      expect(fade.next(pixels, 'moving', 900)).toBe(places.at(-1));
      expect(fade.next(pixels, 'resting', 900)).toBe(places.at(-1));
    }
  });

  it('does not waver where the zoom does, and has an end at once where nothing may be seen to move', () => {
    const middle = (low + high) / 2;
    for (const begin of [from, to]) {
      const fade = new YarnFade(), end = fade.next(begin, 'still', 0);
      for (let i = 0; i < 20; i++) expect(fade.next(middle + (i % 2 === 0 ? 0.4 : -0.4), i % 3 === 0 ? 'resting' : 'moving', 40 * i)).toBe(end);
    }
    const fade = new YarnFade();
    for (const pixels of [8, 20, 8, 13, 15, 12.5]) expect(fade.next(pixels, 'still', 0)).toBe(restAt(pixels));
  });
});

/** Pixels a stitch on the way from one zoom to another. */
function steps(from: number, to: number): number[] {
  return Array.from({ length: 97 }, (_, i) => from + ((to - from) * i) / 96);
}
