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
  const count = (start: Int32Array, vertices: Int32Array): void => {
    for (let c = 0; c + 1 < start.length; c++) {
      const [from, to] = [start[c] as number, start[c + 1] as number];
      for (let i = from; i < to; i++) {
        const [u, v] = [vertices[i] as number, vertices[i + 1 < to ? i + 1 : from] as number];
        const key = Math.min(u, v) * fabric.vertexCount + Math.max(u, v);
        sides.set(key, (sides.get(key) ?? 0) + 1);
      }
    }
  };
  count(fabric.cellStart, fabric.cellVertices);
  count(fabric.boundaryStart, fabric.boundaryVertices);
  for (let e = 0; e < fabric.edges.length; e += 2) {
    const [u, v] = [fabric.edges[e] as number, fabric.edges[e + 1] as number];
    const found = sides.get(Math.min(u, v) * fabric.vertexCount + Math.max(u, v)) ?? 0;
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
  const [from, to] = [fabric.cellStart[cell] as number, fabric.cellStart[cell + 1] as number];
  let twice = 0;
  for (let i = from; i < to; i++) {
    const j = i + 1 < to ? i + 1 : from;
    const [x, y, u, v] = [2 * i, 2 * i + 1, 2 * j, 2 * j + 1].map((k) => fabric.cellRestMm[k] as number) as [number, number, number, number];
    twice += x * v - u * y;
  }
  return twice / 2;
}
