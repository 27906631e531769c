import type { Fabric } from './fabric.ts';
import { EDGE } from './fabric.ts';

/** A whole fabric in the order in which it comes to be, and what of it there is after each pass. */
export interface GrowingFabric {
  /** As it was given. */
  readonly whole: Fabric;
  /** The same cloth, its cells and edges sorted by the pass in which they come to be; those closed with the piece off the machine last. No boundary. */
  readonly fabric: Fabric;
  /** After each pass: vertices, cells and edges. */
  readonly vertexCounts: Int32Array;
  readonly cellCounts: Int32Array;
  readonly edgeCounts: Int32Array;
  /** Edges that are boundary for a while, the cloth on their left: two vertices each; and from which pass up to which, two entries each. */
  readonly rims: Int32Array;
  readonly rimPasses: Int32Array;
  /** Rims at any pass, at most. */
  readonly mostRims: number;
}

/** Sorts a fabric by the passes that make it. A cell is there with the last of its loops; one on a mitre only when the next needle holds; seams, grafts and bind-offs never on the machine. */
export function sortByPass(whole: Fabric, lastPass: number): GrowingFabric {
  const never = lastPass + 1, late = new Set<string>(), mitres = new Set<string>();
  const edgePass = new Int32Array(whole.edgeKind.length);
  for (let e = 0; e < edgePass.length; e++) {
    const a = whole.edges[2 * e], b = whole.edges[2 * e + 1], kind = whole.edgeKind[e];
    const isLate = kind === EDGE.seam || kind === EDGE.join;
    edgePass[e] = isLate ? never : Math.max(whole.vertexPass[a], whole.vertexPass[b]);
    if (isLate || kind === EDGE.mitre) for (const key of [`${a} ${b}`, `${b} ${a}`]) (isLate ? late : mitres).add(key);
  }
  const cellPass = Int32Array.from({ length: whole.cellStart.length - 1 }, (_, cell) => {
    let pass = 0, isLate = false, isOnMitre = false;
    for (const [a, b] of sidesOf(whole, cell)) {
      pass = Math.max(pass, whole.vertexPass[a]);
      isLate ||= late.has(`${a} ${b}`);
      isOnMitre ||= mitres.has(`${a} ${b}`);
    }
    return isLate ? never : pass + (isOnMitre ? 1 : 0);
  });
  const cells = sortedBy(cellPass), edges = sortedBy(edgePass), rims = findRims(whole, cellPass, never);
  return {
    whole,
    fabric: {
      ...whole, ...sortCells(whole, cells), boundaryStart: Int32Array.of(0), boundaryVertices: new Int32Array(0),
      edges: Int32Array.from(edges.flatMap((e) => [whole.edges[2 * e], whole.edges[2 * e + 1]])), edgeKind: Uint8Array.from(edges, (e) => whole.edgeKind[e]),
    },
    vertexCounts: countsBy(whole.vertexPass, lastPass), cellCounts: countsBy(cellPass, lastPass), edgeCounts: countsBy(edgePass, lastPass), ...rims,
  };
}

function sidesOf({ cellStart, cellVertices }: Fabric, cell: number): (readonly [number, number])[] {
  const from = cellStart[cell], count = cellStart[cell + 1] - from;
  return Array.from({ length: count }, (_, i) => [cellVertices[from + i], cellVertices[from + (i + 1) % count]]);
}

function sortedBy(passes: Int32Array): number[] {
  return Array.from(passes.keys()).sort((a, b) => passes[a] - passes[b] || a - b);
}

function countsBy(passes: Int32Array, lastPass: number): Int32Array {
  const counts = new Int32Array(lastPass + 1);
  for (const pass of passes) if (pass <= lastPass) counts[pass]++;
  for (let p = 1; p <= lastPass; p++) counts[p] += counts[p - 1];
  return counts;
}

function sortCells(whole: Fabric, order: readonly number[]): Pick<Fabric, 'cellStart' | 'cellVertices' | 'cellRestMm' | 'cellIsRib'> {
  const cellStart = new Int32Array(order.length + 1), cellVertices = new Int32Array(whole.cellVertices.length), cellRestMm = new Float64Array(whole.cellRestMm.length);
  order.forEach((cell, k) => {
    const from = whole.cellStart[cell], to = whole.cellStart[cell + 1], at = cellStart[k];
    cellVertices.set(whole.cellVertices.subarray(from, to), at);
    cellRestMm.set(whole.cellRestMm.subarray(2 * from, 2 * to), 2 * at);
    cellStart[k + 1] = at + to - from;
  });
  return { cellStart, cellVertices, cellRestMm, cellIsRib: Uint8Array.from(order, (cell) => whole.cellIsRib[cell]) };
}

/** A side of a cell is a rim from the cell's pass until that of the cell over it. */
function findRims(whole: Fabric, cellPass: Int32Array, never: number): Pick<GrowingFabric, 'rims' | 'rimPasses' | 'mostRims'> {
  const cellOver = new Map<string, number>();
  for (let cell = 0; cell < cellPass.length; cell++) for (const [a, b] of sidesOf(whole, cell)) cellOver.set(`${b} ${a}`, cell);
  const rims: number[] = [], rimPasses: number[] = [], change = new Int32Array(never + 1);
  for (let cell = 0; cell < cellPass.length; cell++) {
    for (const [a, b] of sidesOf(whole, cell)) {
      const over = cellOver.get(`${a} ${b}`), until = over === undefined ? never : cellPass[over];
      if (until <= cellPass[cell]) continue;
      rims.push(a, b);
      rimPasses.push(cellPass[cell], until);
      change[cellPass[cell]]++;
      change[until]--;
    }
  }
  let now = 0, mostRims = 0;
  for (const step of change) mostRims = Math.max(mostRims, now += step);
  return { rims: Int32Array.from(rims), rimPasses: Int32Array.from(rimPasses), mostRims };
}
