import { describe, expect, it } from 'vitest';
import { buildPartFabric } from '../../src/fabric/build-part-fabric.ts';
import type { Fabric } from '../../src/fabric/fabric.ts';
import { sortByPass } from '../../src/fabric/growing-fabric.ts';
import { gridAtPass } from '../../src/machine/grid-at-pass.ts';
import { GROWING, knitOrThrow } from '../pipeline/growing-socks.ts';

/** Each of the first cells as its vertices from the least on, in turning order. */
function cellsOf({ cellStart, cellVertices }: Fabric, count: number): string[] {
  return Array.from({ length: count }, (_, cell) => {
    const corners = [...cellVertices.subarray(cellStart[cell], cellStart[cell + 1])], first = corners.indexOf(Math.min(...corners));
    return [...corners.slice(first), ...corners.slice(0, first)].join(' ');
  }).sort();
}

/** The boundaries' edges that a cell lies beside, the cloth on the left. */
function boundaryOf(fabric: Fabric): string[] {
  const { boundaryStart, boundaryVertices, cellStart, cellVertices } = fabric, sides = new Set<string>();
  for (let cell = 0; cell + 1 < cellStart.length; cell++) {
    for (let k = cellStart[cell]; k < cellStart[cell + 1]; k++) sides.add(`${cellVertices[k]} ${cellVertices[k + 1 < cellStart[cell + 1] ? k + 1 : cellStart[cell]]}`);
  }
  const edges: string[] = [];
  for (let b = 0; b + 1 < boundaryStart.length; b++) {
    for (let i = boundaryStart[b]; i < boundaryStart[b + 1]; i++) edges.push(`${boundaryVertices[i]} ${boundaryVertices[i + 1 < boundaryStart[b + 1] ? i + 1 : boundaryStart[b]]}`);
  }
  return edges.filter((edge) => sides.has(edge)).sort();
}

describe.each(GROWING)('a fabric in the order of its passes: %s', (_, file) => {
  // A fabric built of the loops on the machine alone tells which cells and boundaries are there.
  it('has the cells and boundaries of the piece after every pass', () => {
    const sock = knitOrThrow(file), growing = sortByPass(sock.fabric, sock.trace.passes.length - 1);
    for (let pass = 0; pass < sock.trace.passes.length; pass++) {
      const part = buildPartFabric(gridAtPass(sock.program, sock.grid, sock.trace, pass).grid, sock.fabric);
      expect(growing.vertexCounts[pass]).toBe(part.vertexCount);
      expect(cellsOf(growing.fabric, growing.cellCounts[pass]), `pass ${pass}`).toEqual(cellsOf(part, part.cellStart.length - 1));
      const rims: string[] = [];
      for (let k = 0; k < growing.rims.length; k += 2) {
        if (growing.rimPasses[k] <= pass && growing.rimPasses[k + 1] > pass) rims.push(`${growing.rims[k]} ${growing.rims[k + 1]}`);
      }
      expect(rims.sort(), `pass ${pass}`).toEqual(boundaryOf(part));
      expect(rims.length).toBeLessThanOrEqual(growing.mostRims);
    }
  });

  it('is the same cloth, its cells with their own rest shapes', () => {
    const { fabric, trace } = knitOrThrow(file), { fabric: sorted } = sortByPass(fabric, trace.passes.length - 1);
    const restOf = (cloth: Fabric): string[] => Array.from({ length: cloth.cellStart.length - 1 }, (__, c) =>
      `${[...cloth.cellVertices.subarray(cloth.cellStart[c], cloth.cellStart[c + 1])].join(' ')}: ${[...cloth.cellRestMm.subarray(2 * cloth.cellStart[c], 2 * cloth.cellStart[c + 1])].join(' ')} ${cloth.cellIsRib[c]}`).sort();
    expect(restOf(sorted)).toEqual(restOf(fabric));
  });
});
