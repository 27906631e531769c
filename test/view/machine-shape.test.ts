import { describe, expect, it } from 'vitest';
import { NEEDLE } from '../../src/machine/codes.ts';
import type { Holding } from '../../src/pipeline/result.ts';
import { shapeMachine, TONE } from '../../src/view/machine-shape.ts';
import { type Solid, SolidBuilder } from '../../src/view/solid-builder.ts';

/** Six times the volume inside, by Gauss: negative where triangles face inward. */
function sixVolumes({ positions: p, index }: Solid): number {
  let six = 0;
  for (let t = 0; t < index.length; t += 3) {
    const [a, b, c] = [3 * index[t], 3 * index[t + 1], 3 * index[t + 2]];
    six += p[a] * (p[b + 1] * p[c + 2] - p[b + 2] * p[c + 1]) + p[a + 1] * (p[b + 2] * p[c] - p[b] * p[c + 2]) + p[a + 2] * (p[b] * p[c + 1] - p[b + 1] * p[c]);
  }
  return six;
}

/** Least cosine between a triangle's own normal and those of its corners. */
function worstNormal({ positions: p, normals: n, index }: Solid): number {
  let worst = 1;
  for (let t = 0; t < index.length; t += 3) {
    const [a, b, c] = [3 * index[t], 3 * index[t + 1], 3 * index[t + 2]];
    const u = [0, 1, 2].map((d) => p[b + d] - p[a + d]), v = [0, 1, 2].map((d) => p[c + d] - p[a + d]);
    const own = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]], length = Math.hypot(...own);
    if (length < 1e-9) continue;
    for (const at of [a, b, c]) worst = Math.min(worst, own.reduce((sum, value, d) => sum + value * n[at + d], 0) / length);
  }
  return worst;
}

describe('plain solids', () => {
  it('a round bar has the volume of its polygon\'s prism', () => {
    const builder = new SolidBuilder();
    builder.addBar([[0, 0, 0], [0, 0, 10]], 2, 12, [1, 0, 0], 0);
    // Area of a regular polygon: n r^2 sin(2 pi / n) / 2.
    expect(sixVolumes(builder.build()) / 6).toBeCloseTo(10 * 12 * 4 * Math.sin(Math.PI / 6) / 2, 4);
  });

  it('a rail has the volume of its section times its length', () => {
    const builder = new SolidBuilder();
    builder.addRail(-3, 7, [[0, 0], [4, 0], [4, 2], [0, 2]], 0);
    expect(sixVolumes(builder.build()) / 6).toBeCloseTo(80, 4);
  });

  it('a turned cone has a third of its prism\'s volume', () => {
    const builder = new SolidBuilder();
    builder.addTurned([1, 2, 3], [[0, 0], [3, -9], [0, -9]], 16, 0);
    expect(sixVolumes(builder.build()) / 6).toBeCloseTo(9 * 16 * 9 * Math.sin(Math.PI / 8) / 2 / 3, 3);
  });
});

/** Front needles 1..6 at -3.5, back ones at 3.5; the middle four of the front work, one is held. */
function holding(changes: Partial<Holding> = {}): Holding {
  const { working, held, empty } = NEEDLE, places: number[] = [];
  for (const y of [-3.5, 3.5]) for (let k = 0; k < 6; k++) places.push(5 * (k - 2.5), y, 0);
  return {
    needlePitchMm: 5, needles: Float64Array.from(places), states: Uint8Array.of(empty, held, working, working, working, empty, empty, empty, empty, empty, empty, empty),
    edge: Float64Array.of(-6, -1, -80, 0, 0, -82, 6, 1, -81), claw: [0, -8, -20], ...changes,
  };
}

describe('the machine round a piece', () => {
  const cloth = Float64Array.of(0, -9, -40, 0, 3, -82), shape = shapeMachine(holding(), cloth);

  it('has a needle at each place, of its bed, held ones forward and empty ones back, each in its own tone', () => {
    expect([...shape.places]).toEqual([...holding().needles]);
    const [sides, forward, tones] = [0, 1, 2].map((d) => [...shape.states].filter((_value, i) => i % 3 === d));
    expect(sides).toEqual([-1, -1, -1, -1, -1, -1, 1, 1, 1, 1, 1, 1]);
    expect(forward[1]).toBeGreaterThan(0);
    expect(forward[2]).toBe(0);
    expect(forward[0]).toBeLessThan(0);
    expect(tones.slice(0, 3)).toEqual([TONE.idle, TONE.held, TONE.needle]);
  });

  it('consists of closed solids, seen from outside, and few triangles', () => {
    for (const solid of [shape.needle, shape.rails, shape.weights]) {
      expect(sixVolumes(solid)).toBeGreaterThan(0);
      expect(worstNormal(solid)).toBeGreaterThan(-0.35);
    }
    expect(shape.needle.index.length / 3).toBeLessThan(100);
    expect((shape.rails.index.length + shape.weights.index.length) / 3).toBeLessThan(3500);
  });

  // 100 g of steel, 7.85 g/cm^3 (handbook value, from memory), are 12.7 cm^3.
  it('has weights of about the size of 100 g of steel', () => {
    const bare = shapeMachine(holding({ claw: null }), cloth), none = shapeMachine(holding({ claw: null, edge: new Float64Array(0) }), cloth);
    expect(none.weights.index.length).toBe(0);
    const each = sixVolumes(bare.weights) / 6 / 3;
    expect(each / 12_740).toBeGreaterThan(0.7);
    expect(each / 12_740).toBeLessThan(1.2);
  });

  it('hangs the heel\'s weight clear of the cloth, on the heel\'s side', () => {
    const bare = shapeMachine(holding({ claw: null }), cloth).weights.positions.length;
    const back = shapeMachine(holding({ claw: [0, 8, -20] }), Float64Array.of(0, 9, -40)).weights;
    const ys = (p: Float32Array): number[] => [...p.subarray(bare)].filter((_value, i) => i % 3 === 1);
    const body = ys(shape.weights.positions).slice(-9 * 14);
    expect(Math.max(...body)).toBeLessThan(-9);
    expect(Math.min(...ys(back.positions).slice(-9 * 14))).toBeGreaterThan(9);
  });

  it('frames beds and weights', () => {
    const zs = [...shape.corners].filter((_value, i) => i % 3 === 2);
    expect(Math.max(...zs)).toBeGreaterThan(0);
    const lowest = Math.min(...[...shape.weights.positions].filter((_value, i) => i % 3 === 2));
    expect(Math.abs(Math.min(...zs) - lowest)).toBeLessThan(2);
  });
});
