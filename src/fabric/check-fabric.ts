import type { Fabric } from './fabric.ts';

/** Vertices - edges + cells: 1 for a disk, as a closed sock is. */
export function countEuler(fabric: Pick<Fabric, 'vertexCount' | 'edges' | 'cellStart'>): number {
  return fabric.vertexCount - fabric.edges.length / 2 + (fabric.cellStart.length - 1);
}

/**
 * What is wrong with a fabric, empty when all holds: every edge borders two cells or a cell and a
 * boundary, every rest shape has an area, every number is finite.
 */
export function checkFabric(fabric: Fabric): string[] {
  const broken: string[] = [];
  const sides = new Map<number, number>();
  const keyOf = (u: number, v: number): number => (u < v ? u * fabric.vertexCount + v : v * fabric.vertexCount + u);
  for (let e = 0; e < fabric.edges.length; e += 2) sides.set(keyOf(fabric.edges[e], fabric.edges[e + 1]), 0);
  const count = (start: Int32Array, vertices: Int32Array): void => {
    for (let c = 0; c + 1 < start.length; c++) {
      const [from, to] = [start[c], start[c + 1]];
      for (let i = from; i < to; i++) {
        const [u, v] = [vertices[i], vertices[i + 1 < to ? i + 1 : from]];
        const key = keyOf(u, v);
        sides.set(key, (sides.get(key) ?? 0) + 1);
      }
    }
  };
  count(fabric.cellStart, fabric.cellVertices);
  count(fabric.boundaryStart, fabric.boundaryVertices);
  for (let e = 0; e < fabric.edges.length; e += 2) {
    const [u, v] = [fabric.edges[e], fabric.edges[e + 1]];
    const found = sides.get(keyOf(u, v)) ?? 0;
    if (found !== 2) broken.push(`edge ${u}-${v} borders ${found} faces, not 2`);
  }
  for (let c = 0; c + 1 < fabric.cellStart.length; c++) {
    const area = restAreaMm2(fabric, c);
    if (!(area > 0)) broken.push(`cell ${c} has a rest area of ${area} square mm`);
  }
  return broken;
}

/** Area of a cell's rest shape by the shoelace formula, positive if counter-clockwise. */
export function restAreaMm2(fabric: Pick<Fabric, 'cellStart' | 'cellRestMm'>, cell: number): number {
  const [from, to] = [fabric.cellStart[cell], fabric.cellStart[cell + 1]];
  let twice = 0;
  for (let i = from; i < to; i++) {
    const j = i + 1 < to ? i + 1 : from;
    twice += (fabric.cellRestMm[2 * i]) * (fabric.cellRestMm[2 * j + 1])
      - (fabric.cellRestMm[2 * j]) * (fabric.cellRestMm[2 * i + 1]);
  }
  return twice / 2;
}
