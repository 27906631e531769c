import { describe, expect, it } from 'vitest';
import { drawFootOutlines, traceFootLines } from '../../src/foot/draw-foot.ts';
import { makeFootForm } from '../../src/foot/foot-form.ts';
import { MEASURE_NAMES } from '../../src/foot/foot-measures.ts';
import { measuringGuide } from '../../src/foot/measuring-guide.ts';

describe.each([
  ['an adult\'s right foot', { lengthMm: 262, ballGirthMm: 246 }],
  ['a left foot, pointed, with a high instep', { lengthMm: 250, ballGirthMm: 238, heelDiagonalMm: 350, side: 'left', toes: 'pointed', arch: 'high' }],
  ['a child\'s', { lengthMm: 140, ballGirthMm: 142, toes: 'square' }],
] as const)('the drawing of %s', (_, given) => {
  const foot = makeFootForm(given), lines = traceFootLines(foot), { side, above } = drawFootOutlines(foot), { lengthMm } = foot.measures;
  const normal = new Float64Array(3), at = (x: number, y: number, z: number): number => foot.distanceAt(x, y, z, normal);

  it('has its lines on the form', () => {
    const points = [...lines.side, ...lines.above, ...lines.tapes.flatMap((tape) => tape.points), ...lines.rules.flatMap((rule) => rule.points)];
    expect(points.length).toBeGreaterThan(500);
    for (const [x, y, z] of points) expect(Math.abs(at(x, y, z))).toBeLessThan(0.05);
  });

  // Geometry: along the outline of a smooth body the skin is seen edge on.
  it('has outlines where the skin turns away', () => {
    for (const [x, y, z] of lines.side) {
      at(x, y, z);
      expect(Math.abs(normal[1])).toBeLessThan(0.05);
    }
  });

  it('has outlines that hold the whole foot', () => {
    // No point of the tapes lies outside of what is drawn.
    const inside = (outline: readonly (readonly [number, number])[], [x, y]: readonly [number, number]): boolean => {
      let turns = false;
      outline.forEach(([ax, ay], k) => {
        const [bx, by] = outline[(k + 1) % outline.length];
        if (ay > y !== by > y && x < ax + (bx - ax) * (y - ay) / (by - ay)) turns = !turns;
      });
      return turns;
    };
    const towards = (p: readonly [number, number], c: readonly [number, number]): readonly [number, number] => [p[0] + 0.03 * (c[0] - p[0]), p[1] + 0.03 * (c[1] - p[1])];
    for (const { centre, points } of lines.tapes) {
      for (const p of points) expect(inside(side.outline, towards([p[0], p[2]], [centre[0], centre[2]]))).toBe(true);
    }
    const xs = above.outline.map(([x]) => x), ys = above.outline.map(([, y]) => y);
    expect(Math.abs((Math.max(...xs) - Math.min(...xs)) / lengthMm - 1)).toBeLessThan(0.01);
    expect(Math.max(...ys) - Math.min(...ys)).toBeGreaterThan(0.36 * foot.measures.ballGirthMm);
  });

  it('has a tape or a rule for each measure, as long as it says', () => {
    expect([...lines.tapes, ...lines.rules].map(({ measure }) => measure).sort()).toEqual([...MEASURE_NAMES].sort());
    for (const { measure, points } of lines.tapes) {
      const round = points.reduce((sum, p, k) => sum + Math.hypot(...p.map((value, axis) => value - points[(k + 1) % points.length][axis])), 0);
      // On the skin, not taut over its hollows: a little longer than the tape.
      expect(round / foot.measures[measure]).toBeGreaterThan(0.995);
      expect(round / foot.measures[measure]).toBeLessThan(1.04);
    }
    for (const { measure, points: [a, b] } of lines.rules) expect(Math.abs(Math.hypot(a[0] - b[0], measure === 'lengthMm' ? 0 : a[1] - b[1]) / foot.measures[measure] - 1)).toBeLessThan(0.02);
    expect(side.measures.map(({ measure }) => measure)).toEqual(['ballGirthMm', 'heelDiagonalMm', 'ankleGirthMm', 'calfGirthMm', 'lengthMm']);
    for (const { line } of [...side.measures, ...above.measures]) expect(line.length).toBeGreaterThanOrEqual(2);
  });
});

it('a left foot is drawn as a right one, mirrored', () => {
  const given = { lengthMm: 255, ballGirthMm: 240 } as const;
  const right = drawFootOutlines(makeFootForm({ ...given, side: 'right' })), left = drawFootOutlines(makeFootForm({ ...given, side: 'left' }));
  right.above.outline.forEach(([x, y], k) => {
    expect(left.above.outline[k][0]).toBeCloseTo(x, 6);
    expect(left.above.outline[k][1]).toBeCloseTo(-y, 6);
  });
});

it('the guide has a step for each field of a foot, in one to three plain sentences', () => {
  const { steps, before, cautions } = measuringGuide();
  expect(steps.map(({ measure }) => measure)).toEqual([...MEASURE_NAMES, 'arch', 'toes']);
  for (const { how } of steps) expect(how.split(/[.!?](?:\s|$)/).filter(Boolean).length).toBeLessThanOrEqual(3);
  expect(before.join(' ')).toMatch(/standing/);
  expect(cautions.join(' ')).toMatch(/clinician/);
});
