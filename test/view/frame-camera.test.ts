import { describe, expect, it } from 'vitest';
import { axesOf, frameFor, MACHINE_PRESETS, PRESETS, type Vector } from '../../src/view/frame-camera.ts';
import { lineSegments, middleOfLine } from '../../src/view/line-segments.ts';
import type { ViewPreset } from '../../src/view/sock-view-types.ts';

function dot(a: Vector, b: readonly number[]): number { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

/** A boot of two boxes' corners, mm. */
const BOOT = Float64Array.of(0, -40, 0, 0, 40, 0, 270, -40, 0, 270, 40, 0, 270, 0, 60, 0, -30, 220, 90, 30, 220, 40, 0, 230);

describe.each(Object.keys(PRESETS) as ViewPreset[])('preset %s', (preset) => {
  const axes = axesOf(PRESETS[preset]);

  it('has right-handed unit axes', () => {
    const cross = [
      axes.right[1] * axes.up[2] - axes.right[2] * axes.up[1],
      axes.right[2] * axes.up[0] - axes.right[0] * axes.up[2],
      axes.right[0] * axes.up[1] - axes.right[1] * axes.up[0],
    ];
    for (let d = 0; d < 3; d++) expect(cross[d]).toBeCloseTo(-axes.forward[d], 12);
    expect(dot(axes.right, axes.right)).toBeCloseTo(1, 12);
  });

  it.each([0.4, 1, 1.6, 3])('frames every point at aspect %s, touching the frame', (aspect) => {
    const tanY = 0.18, tanX = tanY * aspect, { eye } = frameFor(BOOT, axes, tanX, tanY);
    let fullest = 0;
    for (let i = 0; i < BOOT.length; i += 3) {
      const p = [BOOT[i] - eye[0], BOOT[i + 1] - eye[1], BOOT[i + 2] - eye[2]], z = dot(axes.forward, p);
      expect(z).toBeGreaterThan(0);
      const share = Math.max(Math.abs(dot(axes.right, p)) / (tanX * z), Math.abs(dot(axes.up, p)) / (tanY * z));
      expect(share).toBeLessThan(1 + 1e-9);
      fullest = Math.max(fullest, share);
    }
    expect(fullest).toBeCloseTo(1, 9);
  });
});

describe('a framing with room over it', () => {
  it.each([0.4, 3])('at aspect %s keeps every point within the narrower tangent upwards', (aspect) => {
    const tanY = 0.18, tanUp = 0.12, tanX = tanY * aspect, axes = axesOf(PRESETS.side);
    const { eye } = frameFor(BOOT, axes, tanX, tanY, tanUp);
    let fullest = 0;
    for (let i = 0; i < BOOT.length; i += 3) {
      const p = [BOOT[i] - eye[0], BOOT[i + 1] - eye[1], BOOT[i + 2] - eye[2]], z = dot(axes.forward, p), up = dot(axes.up, p);
      const share = Math.max(Math.abs(dot(axes.right, p)) / (tanX * z), up / (tanUp * z), -up / (tanY * z));
      expect(share).toBeLessThan(1 + 1e-9);
      fullest = Math.max(fullest, share);
    }
    expect(fullest).toBeCloseTo(1, 9);
  });
});

describe('the framing of what hangs', () => {
  it.each([0.4, 3])('at aspect %s puts its highest point at the top, and keeps all of it in the frame', (aspect) => {
    const tanY = 0.18, tanUp = 0.12, tanX = tanY * aspect, axes = axesOf(MACHINE_PRESETS.front);
    const { eye } = frameFor(BOOT, axes, tanX, tanY, tanUp, true);
    let highest = -Infinity;
    for (let i = 0; i < BOOT.length; i += 3) {
      const p = [BOOT[i] - eye[0], BOOT[i + 1] - eye[1], BOOT[i + 2] - eye[2]], z = dot(axes.forward, p), up = dot(axes.up, p);
      expect(Math.max(Math.abs(dot(axes.right, p)) / (tanX * z), -up / (tanY * z))).toBeLessThan(1 + 1e-9);
      highest = Math.max(highest, up / (tanUp * z));
    }
    expect(highest).toBeCloseTo(1, 9);
  });

  it('has the front before the eye, the back behind it, the beds\' right end at the side', () => {
    const { front, back, side } = MACHINE_PRESETS;
    expect(axesOf(front).forward[1]).toBeGreaterThan(0.9);
    expect(axesOf(back).forward[1]).toBeLessThan(-0.9);
    expect(axesOf(side).forward[0]).toBeLessThan(-0.9);
  });
});

describe('the side view', () => {
  it('looks along y with the toe to the right and the leg up', () => {
    const { right, up, forward } = axesOf(PRESETS.side);
    expect([...right, ...up, ...forward].map((v) => Math.round(v * 1e9) / 1e9 + 0)).toEqual([1, 0, 0, 0, 0, 1, 0, 1, 0]);
  });
});

describe('a measure line', () => {
  it('has a mark at both open ends, none when closed', () => {
    const open = Float64Array.of(0, 0, 0, 3, 4, 0, 3, 4, 12);
    expect(lineSegments(open).span).toEqual(Float32Array.of(0, 5, 1, 5, 17, 1, 0, 0, Math.fround(2.3), 0, 0, Math.fround(2.3)));
    const closed = Float64Array.of(0, 0, 0, 3, 4, 0, 3, 0, 0, 0, 0, 0);
    expect(lineSegments(closed).span).toHaveLength(9);
  });

  // Half of 5 + 12 is 8.5: 3.5 up the second leg (geometry).
  it('has its middle half way along, not half way between', () => {
    expect(Array.from(middleOfLine(Float64Array.of(0, 0, 0, 3, 4, 0, 3, 4, 12)))).toEqual([3, 4, 3.5, 3, 4, 12]);
  });
});
