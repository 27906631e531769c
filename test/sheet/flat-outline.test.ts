import { expect, it } from 'vitest';
import { drawFlatOutline } from '../../src/sheet/flat-outline.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import { textColumns } from '../../src/panel/text-columns.ts';

/** Of a closed line, two entries a point. */
function areaOf(points: readonly number[]): number {
  let twice = 0;
  for (let i = 0, j = points.length - 2; i < points.length; j = i, i += 2) twice += points[j] * points[i + 1] - points[i] * points[j + 1];
  return Math.abs(twice) / 2;
}

// Geometry: a sock laid flat is two layers, so all its cells together cover twice what its outline encloses.
it.each(['decreased', 'short-row'] as const)('the outline of a sock with a %s toe, laid flat, encloses half of its cloth', (kind) => {
  const { sock } = knitSock({ gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, leg: { lengthMm: 60 }, counts: { stitches: 32, footPasses: 30 }, toe: { kind } });
  const { pose: { positions } } = poseSock(sock!, 'flat'), { cellStart, cellVertices } = sock!.fabric;
  let cloth = 0;
  for (let cell = 0; cell + 1 < cellStart.length; cell++) {
    cloth += areaOf([...cellVertices.slice(cellStart[cell], cellStart[cell + 1])].flatMap((v) => [positions[3 * v], -positions[3 * v + 2]]));
  }
  const outline = drawFlatOutline(sock!.fabric, positions)!;
  expect(areaOf(outline.edge) / (cloth / 2)).toBeGreaterThan(0.97);
  expect(areaOf(outline.edge) / (cloth / 2)).toBeLessThan(1.03);
  expect(outline.lines.length).toBe(2);
});

it('a table as text has its columns under each other', () => {
  expect(textColumns([['size', 'st'], ['Infant', '32'], ['Äpfel', '104']])).toBe('size     st\nInfant   32\nÄpfel   104\n');
});
