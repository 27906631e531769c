import { expect, test } from 'vitest';
import { knitSock } from '../../src/pipeline/knit-sock.ts';

test('cells and boundary have the fabric on their left: every edge is walked once each way, the cast-on with the cells', () => {
  const { sock } = knitSock({ gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 40, legPasses: 8, footPasses: 30 } });
  const { vertexCount, cellStart, cellVertices, boundaryStart, boundaryVertices } = sock!.fabric;
  const walked = new Map<number, number>();
  const walk = (start: Int32Array, vertices: Int32Array): void => {
    for (let c = 0; c + 1 < start.length; c++) {
      for (let i = start[c]; i < start[c + 1]; i++) {
        const key = vertices[i] * vertexCount + vertices[i + 1 < start[c + 1] ? i + 1 : start[c]];
        walked.set(key, (walked.get(key) ?? 0) + 1);
      }
    }
  };
  walk(cellStart, cellVertices);
  expect([...walked.values()].every((times) => times === 1)).toBe(true);
  const unpaired = [...walked.keys()].filter((key) => !walked.has((key % vertexCount) * vertexCount + Math.floor(key / vertexCount)));
  expect(unpaired).toHaveLength(40);
  // The fabric's rim runs the way its cells do.
  const rim = new Set([...boundaryVertices].map((v, i) => v * vertexCount + boundaryVertices[(i + 1) % 40]));
  expect(boundaryStart).toHaveLength(2);
  expect(unpaired.every((key) => rim.has(key))).toBe(true);
});
