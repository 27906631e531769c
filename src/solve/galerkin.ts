import { makeStiffnessMatrix } from './stiffness.ts';
import type { StiffnessMatrix } from './stiffness.ts';

/** Values at fine nodes as weighted sums of values at coarse ones, PARENTS to a fine node; weights may be 0. */
export interface Interpolation {
  readonly coarseCount: number;
  readonly nodes: Int32Array;
  readonly weights: Float64Array;
}

/** Entries of an `Interpolation` to a fine node. */
export const PARENTS = 4;

/** P^T A P: a fine matrix as coarse nodes feel it. */
export interface CoarseProduct {
  readonly matrix: StiffnessMatrix;
  /** Computes the product anew; `shift` is added to its diagonal. */
  renew(shift: number): void;
}

/** All neighbours of each node, itself among them, and the block of the lower triangle that couples them. */
interface Neighbours { readonly start: Int32Array; readonly nodes: Int32Array; readonly blocks: Int32Array }

/** Room for P^T A P, column by column of A: first A P, whose rows are few, then P^T. */
export function createCoarseProduct(fine: StiffnessMatrix, interpolation: Interpolation): CoarseProduct {
  const { coarseCount, nodes, weights } = interpolation;
  const neighbours = listNeighbours(fine);
  const matrix = coarsePattern(neighbours, fine.nodeCount, interpolation);
  const stamp = new Int32Array(coarseCount).fill(-1), place = new Int32Array(coarseCount), touched = new Int32Array(coarseCount);
  let sums = new Float64Array(9 * 64), touchedCount = 0;

  /** Sum over the neighbours of a fine node of weight times block (neighbour's row, node's column), by the neighbours' parents. Returns how many those are. */
  function gather(j: number): number {
    touchedCount = 0;
    for (let k = neighbours.start[j]; k < neighbours.start[j + 1]; k++) {
      const i = neighbours.nodes[k], b = 9 * neighbours.blocks[k], isTurned = i < j;
      for (let p = PARENTS * i; p < PARENTS * i + PARENTS; p++) {
        if (weights[p] !== 0) addBlock(sums, placeOf(nodes[p], j), fine.values, b, weights[p], isTurned);
      }
    }
    return touchedCount;
  }

  /** Where a parent's sum for fine node j stands, set to zero when first asked for. */
  function placeOf(a: number, j: number): number {
    if (stamp[a] === j) return place[a];
    stamp[a] = j;
    place[a] = 9 * touchedCount;
    touched[touchedCount++] = a;
    if (9 * touchedCount > sums.length) sums = grow(sums);
    sums.fill(0, place[a], place[a] + 9);
    return place[a];
  }

  function spread(p: number, count: number): void {
    for (let t = 0; t < count; t++) {
      if (touched[t] >= nodes[p]) addBlock(matrix.values, 9 * matrix.slotOf(touched[t], nodes[p]), sums, 9 * t, weights[p], false);
    }
  }

  return {
    matrix,
    renew(shift) {
      matrix.clear(shift);
      for (let j = 0; j < fine.nodeCount; j++) {
        const count = gather(j);
        for (let p = PARENTS * j; p < PARENTS * j + PARENTS; p++) if (weights[p] !== 0) spread(p, count);
      }
    },
  };
}

function grow(list: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> {
  const longer = new Float64Array(2 * list.length);
  longer.set(list);
  return longer;
}

function addBlock(out: Float64Array, at: number, from: Float64Array, b: number, w: number, isTurned: boolean): void {
  if (isTurned) {
    out[at] += w * from[b]; out[at + 1] += w * from[b + 3]; out[at + 2] += w * from[b + 6];
    out[at + 3] += w * from[b + 1]; out[at + 4] += w * from[b + 4]; out[at + 5] += w * from[b + 7];
    out[at + 6] += w * from[b + 2]; out[at + 7] += w * from[b + 5]; out[at + 8] += w * from[b + 8];
  } else for (let k = 0; k < 9; k++) out[at + k] += w * from[b + k];
}

function listNeighbours({ nodeCount, columnStart, rows }: StiffnessMatrix): Neighbours {
  const start = new Int32Array(nodeCount + 1);
  for (let j = 0; j < nodeCount; j++) {
    start[j + 1] += columnStart[j + 1] - columnStart[j];
    for (let k = columnStart[j] + 1; k < columnStart[j + 1]; k++) start[rows[k] + 1]++;
  }
  for (let j = 0; j < nodeCount; j++) start[j + 1] += start[j];
  const at = start.slice(0, nodeCount), nodes = new Int32Array(start[nodeCount]), blocks = new Int32Array(start[nodeCount]);
  for (let j = 0; j < nodeCount; j++) {
    for (let k = columnStart[j]; k < columnStart[j + 1]; k++) {
      nodes[at[j]] = rows[k]; blocks[at[j]++] = k;
      if (rows[k] === j) continue;
      nodes[at[rows[k]]] = j; blocks[at[rows[k]]++] = k;
    }
  }
  return { start, nodes, blocks };
}

/** Coarse nodes couple where children of theirs do. */
function coarsePattern(neighbours: Neighbours, fineCount: number, { coarseCount, nodes, weights }: Interpolation): StiffnessMatrix {
  const childStart = new Int32Array(coarseCount + 1);
  for (let p = 0; p < weights.length; p++) if (weights[p] !== 0) childStart[nodes[p] + 1]++;
  for (let a = 0; a < coarseCount; a++) childStart[a + 1] += childStart[a];
  const at = childStart.slice(0, coarseCount), children = new Int32Array(childStart[coarseCount]);
  for (let j = 0; j < fineCount; j++) {
    for (let p = PARENTS * j; p < PARENTS * j + PARENTS; p++) if (weights[p] !== 0) children[at[nodes[p]]++] = j;
  }
  const columnStart = new Int32Array(coarseCount + 1), rows: number[] = [];
  const stamp = new Int32Array(coarseCount).fill(-1);
  for (let b = 0; b < coarseCount; b++) {
    const column = [b];
    stamp[b] = b;
    const meet = (i: number): void => {
      for (let p = PARENTS * i; p < PARENTS * i + PARENTS; p++) {
        const a = nodes[p];
        if (weights[p] === 0 || a <= b || stamp[a] === b) continue;
        stamp[a] = b;
        column.push(a);
      }
    };
    for (const child of children.subarray(childStart[b], childStart[b + 1])) {
      for (let k = neighbours.start[child]; k < neighbours.start[child + 1]; k++) meet(neighbours.nodes[k]);
    }
    for (const a of column.sort((p, q) => p - q)) rows.push(a);
    columnStart[b + 1] = rows.length;
  }
  return makeStiffnessMatrix(coarseCount, columnStart, Int32Array.from(rows));
}
