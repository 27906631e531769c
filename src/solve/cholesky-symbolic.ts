import type { SparseMatrix } from './sparse-matrix.ts';

/** Zeros that a merged block of columns may hold, as a share of its entries. */
const ZERO_SHARE = 0.25;
/** Blocks narrower than this merge more freely: short loops cost more than a few zeros. */
const NARROW = 8;
const NARROW_ZERO_SHARE = 0.5;

/**
 * Where the entries of a Cholesky factor stand, for one pattern. Columns (in elimination order) are
 * grouped into blocks that share their rows; block s holds columns [blockColumn[s], blockColumn[s + 1]),
 * its rows (own columns first, ascending) stand in rows[rowStart[s] ..], its values row by row from
 * valueStart[s], each row as wide as the block.
 */
export interface CholeskyPattern {
  readonly size: number;
  /** Node at each place of the elimination order, and the place of each node. */
  readonly order: Int32Array;
  readonly place: Int32Array;
  readonly blockCount: number;
  readonly blockColumn: Int32Array;
  readonly blockOf: Int32Array;
  readonly rowStart: Int32Array;
  readonly rows: Int32Array;
  readonly valueStart: Int32Array;
  readonly valueCount: number;
}

/** Symbolic factorisation for a pattern and an elimination order (node at each place). Reusable for all matrices of that pattern. */
export function analyseCholesky(matrix: SparseMatrix, fillOrder: Int32Array): CholeskyPattern {
  const first = eliminationTree(matrix, fillOrder);
  const order = postOrder(first.parent).map((place) => fillOrder[place]);
  const { parent, columns } = eliminationTree(matrix, order);
  const structure = columnStructure(parent, columns);
  return groupColumns(matrix.size, order, parent, structure);
}

/** Entries below the diagonal of each column in elimination order, and each column's parent. */
function eliminationTree(matrix: SparseMatrix, order: Int32Array): { parent: Int32Array; columns: Int32Array[] } {
  const n = matrix.size;
  const place = invert(order);
  const lists: number[][] = Array.from({ length: n }, () => []);
  const rowLists: number[][] = Array.from({ length: n }, () => []);
  for (let j = 0; j < n; j++) {
    for (let p = matrix.columnStart[j] + 1; p < matrix.columnStart[j + 1]; p++) {
      const a = place[j], b = place[matrix.rows[p]];
      lists[Math.min(a, b)].push(Math.max(a, b));
      rowLists[Math.max(a, b)].push(Math.min(a, b));
    }
  }
  // Liu's algorithm with path compression (Liu, SIAM J. Matrix Anal. Appl. 11 (1990) 134-172).
  const parent = new Int32Array(n).fill(-1);
  const ancestor = new Int32Array(n).fill(-1);
  for (let k = 0; k < n; k++) {
    for (const from of rowLists[k]) climb(from, k);
  }
  return { parent, columns: lists.map((list) => Int32Array.from(list)) };

  /** Hangs the tree that holds column `from` under column k. */
  function climb(from: number, k: number): void {
    for (let i = from, up = -1; i !== -1 && i < k; i = up) {
      up = ancestor[i];
      ancestor[i] = k;
      if (up === -1) parent[i] = k;
    }
  }
}

function invert(order: Int32Array): Int32Array {
  const place = new Int32Array(order.length);
  for (let k = 0; k < order.length; k++) place[order[k]] = k;
  return place;
}

/** Children before parents, each subtree in one run, so that columns which belong together stand together. */
function postOrder(parent: Int32Array): Int32Array {
  const n = parent.length;
  const firstChild = new Int32Array(n).fill(-1), sibling = new Int32Array(n).fill(-1);
  for (let j = n - 1; j >= 0; j--) {
    if (parent[j] < 0) continue;
    sibling[j] = firstChild[parent[j]];
    firstChild[parent[j]] = j;
  }
  const out = new Int32Array(n);
  const stack: number[] = [];
  let at = 0;
  for (let root = 0; root < n; root++) {
    if (parent[root] >= 0) continue;
    stack.push(root);
    for (let j = stack.pop(); j !== undefined; j = stack.pop()) {
      const child = firstChild[j];
      if (child < 0) { out[at++] = j; continue; }
      firstChild[j] = sibling[child];
      stack.push(j, child);
    }
  }
  return out;
}

/** Rows below the diagonal of each column of the factor, ascending: those of the matrix and of the children. */
function columnStructure(parent: Int32Array, columns: readonly Int32Array[]): Int32Array[] {
  const n = parent.length;
  const mark = new Int32Array(n).fill(-1);
  const children: number[][] = Array.from({ length: n }, () => []);
  const out: Int32Array[] = [];
  const list = new Int32Array(n);
  for (let j = 0; j < n; j++) {
    let count = 0;
    mark[j] = j;
    const gather = (rows: Int32Array): void => {
      for (const i of rows) {
        if (i <= j || mark[i] === j) continue;
        mark[i] = j;
        list[count++] = i;
      }
    };
    gather(columns[j]);
    for (const child of children[j]) gather(out[child]);
    out.push(list.slice(0, count).sort());
    if (parent[j] >= 0) children[parent[j]].push(j);
  }
  return out;
}

/** Runs of columns become blocks: where the rows agree, or where merging adds few zeros. */
function groupColumns(n: number, order: Int32Array, parent: Int32Array, structure: readonly Int32Array[]): CholeskyPattern {
  // Each run: [first column, last column, rows below, true entries so far].
  const runs: { first: number; last: number; below: number; entries: number }[] = [];
  for (let j = 0; j < n; j++) {
    let run = { first: j, last: j, below: structure[j].length, entries: structure[j].length + 1 };
    for (let before = runs.at(-1); before !== undefined && parent[before.last] === run.first; before = runs.at(-1)) {
      const width = run.last - before.first + 1;
      const entries = before.entries + run.entries;
      const whole = width * (width + 1) / 2 + width * run.below;
      const share = width <= NARROW ? NARROW_ZERO_SHARE : ZERO_SHARE;
      if (whole - entries > share * whole) break;
      run = { first: before.first, last: run.last, below: run.below, entries };
      runs.pop();
    }
    runs.push(run);
  }
  return layOutBlocks(n, order, runs, structure);
}

function layOutBlocks(
  n: number, order: Int32Array, runs: readonly { first: number; last: number; below: number }[], structure: readonly Int32Array[],
): CholeskyPattern {
  const blockCount = runs.length;
  const blockColumn = new Int32Array(blockCount + 1), rowStart = new Int32Array(blockCount + 1), valueStart = new Int32Array(blockCount + 1);
  const blockOf = new Int32Array(n);
  runs.forEach((run, s) => {
    const width = run.last - run.first + 1;
    blockColumn[s + 1] = run.last + 1;
    rowStart[s + 1] = rowStart[s] + width + run.below;
    valueStart[s + 1] = valueStart[s] + width * (width + run.below);
    blockOf.fill(s, run.first, run.last + 1);
  });
  const rows = new Int32Array(rowStart[blockCount]);
  runs.forEach((run, s) => {
    let at = rowStart[s];
    for (let j = run.first; j <= run.last; j++) rows[at++] = j;
    rows.set(structure[run.last], at);
  });
  return {
    size: n, order, place: invert(order), blockCount, blockColumn, blockOf, rowStart, rows, valueStart, valueCount: valueStart[blockCount],
  };
}

/** The pattern in which every node stands for `times` rows and columns, node by node. */
export function repeatPattern(pattern: CholeskyPattern, times: number): CholeskyPattern {
  const spread = (list: Int32Array, scale: number): Int32Array => {
    const out = new Int32Array(times * list.length);
    for (let k = 0; k < out.length; k++) out[k] = scale * list[Math.floor(k / times)] + (scale > 1 ? k % times : 0);
    return out;
  };
  const scaled = (list: Int32Array, factor: number): Int32Array => list.map((value) => factor * value);
  return {
    size: times * pattern.size, blockCount: pattern.blockCount,
    order: spread(pattern.order, times), place: spread(pattern.place, times), blockOf: spread(pattern.blockOf, 1), rows: spread(pattern.rows, times),
    blockColumn: scaled(pattern.blockColumn, times), rowStart: scaled(pattern.rowStart, times),
    valueStart: scaled(pattern.valueStart, times * times), valueCount: times * times * pattern.valueCount,
  };
}
