import type { SparseMatrix } from './sparse-matrix.ts';

/** Parts of at most this many nodes are not cut further. */
const LEAF_SIZE = 40;
/** A cut may leave at least this share of a part on its smaller side. */
const LEAST_SHARE = 0.25;
const SIDE = { first: 0, second: 1, cut: 2 } as const;

interface Graph { readonly start: Int32Array; readonly next: Int32Array }

/** Working arrays over nodes. */
interface Cutting {
  readonly graph: Graph;
  /** Part that a node belongs to; -1 once it lies in a cut. */
  readonly part: Int32Array;
  /** Steps from the search's start; -1 where not reached. */
  readonly depth: Int32Array;
  readonly side: Uint8Array;
  readonly queue: Int32Array;
}

/**
 * Nested dissection: an elimination order that keeps a factor sparse (George, SIAM J. Numer. Anal.
 * 10 (1973) 345-363). A part is cut along a level of a breadth-first search from a far node; both
 * sides are ordered before the cut. Returns the node at each place of the order.
 */
export function orderForFill(matrix: SparseMatrix): Int32Array {
  const n = matrix.size;
  const order = new Int32Array(n).map((_, i) => i);
  const scratch = new Int32Array(n);
  const work: Cutting = {
    graph: adjacency(matrix), part: new Int32Array(n), depth: new Int32Array(n),
    side: new Uint8Array(n), queue: new Int32Array(n),
  };
  let partCount = 1;
  const stack: [number, number][] = [[0, n]];
  for (let range = stack.pop(); range !== undefined; range = stack.pop()) {
    const [from, end] = range;
    if (end - from <= LEAF_SIZE) continue;
    const nodes = order.subarray(from, end);
    splitPart(work, nodes);
    let at = 0;
    for (const side of [SIDE.first, SIDE.second, SIDE.cut]) {
      const sideFrom = at;
      at = gatherSide(work, nodes, side, side === SIDE.cut ? -1 : partCount++, scratch, at);
      // A side as large as its part (a clique has no level to cut along) stays as it is.
      if (side !== SIDE.cut && at - sideFrom < nodes.length) stack.push([from + sideFrom, from + at]);
    }
    nodes.set(scratch.subarray(0, nodes.length));
  }
  return order;
}

/** Appends the nodes of one side to `out` from `at` on, and gives them their part. Returns the end. */
function gatherSide(work: Cutting, nodes: Int32Array, side: number, part: number, out: Int32Array, at: number): number {
  let end = at;
  for (const node of nodes) {
    if (work.side[node] !== side) continue;
    out[end++] = node;
    work.part[node] = part;
  }
  return end;
}

/** Sets `side` for the nodes of one part. */
function splitPart(work: Cutting, nodes: Int32Array): void {
  const { depth, side, graph, part } = work;
  const mine = part[nodes[0]];
  const reached = searchFromFarNode(work, nodes, mine);
  if (reached < nodes.length) {
    for (const node of nodes) side[node] = depth[node] >= 0 ? SIDE.first : SIDE.second;
    return;
  }
  const level = chooseLevel(work, nodes);
  for (const node of nodes) {
    const d = depth[node];
    if (d !== level) side[node] = d < level ? SIDE.first : SIDE.second;
    else side[node] = hasNeighbourAt(graph, part, depth, node, mine, level + 1) ? SIDE.cut : SIDE.first;
  }
}

function hasNeighbourAt(graph: Graph, part: Int32Array, depth: Int32Array, node: number, mine: number, level: number): boolean {
  for (let p = graph.start[node]; p < graph.start[node + 1]; p++) {
    const other = graph.next[p];
    if (part[other] === mine && depth[other] === level) return true;
  }
  return false;
}

/** Breadth-first search begun at the last node that two earlier searches reached. Returns how many nodes it reaches. */
function searchFromFarNode(work: Cutting, nodes: Int32Array, mine: number): number {
  let reached = search(work, nodes, nodes[0], mine);
  for (let turn = 0; turn < 2; turn++) reached = search(work, nodes, work.queue[reached - 1], mine);
  return reached;
}

function search(work: Cutting, nodes: Int32Array, root: number, mine: number): number {
  const { graph, part, depth, queue } = work;
  for (const node of nodes) depth[node] = -1;
  depth[root] = 0;
  queue[0] = root;
  let end = 1;
  for (let head = 0; head < end; head++) {
    const node = queue[head];
    for (let p = graph.start[node]; p < graph.start[node + 1]; p++) {
      const other = graph.next[p];
      if (part[other] !== mine || depth[other] >= 0) continue;
      depth[other] = depth[node] + 1;
      queue[end++] = other;
    }
  }
  return end;
}

/** The level with the fewest nodes among those that leave enough on both sides, weighed by balance. */
function chooseLevel(work: Cutting, nodes: Int32Array): number {
  const { depth, queue } = work;
  const last = depth[queue[nodes.length - 1]];
  const sizes = new Int32Array(last + 1);
  for (const node of nodes) sizes[depth[node]]++;
  let below = 0, best = last, bestCost = Infinity;
  for (let level = 0; level < last; level++) {
    const above = nodes.length - below - sizes[level];
    const smaller = Math.min(below, above) / nodes.length;
    // A lopsided cut is worth taking only when no level is better placed.
    const cost = smaller < LEAST_SHARE ? nodes.length * (2 - smaller) : sizes[level] * (1.5 - smaller);
    if (below > 0 && cost < bestCost) { best = level; bestCost = cost; }
    below += sizes[level];
  }
  return best;
}

/** Neighbours of each node, both triangles, the diagonal left out. */
function adjacency(matrix: SparseMatrix): Graph {
  const { size, columnStart, rows } = matrix;
  const start = new Int32Array(size + 1);
  for (let j = 0; j < size; j++) {
    for (let p = columnStart[j] + 1; p < columnStart[j + 1]; p++) { start[j + 1]++; start[rows[p] + 1]++; }
  }
  for (let j = 0; j < size; j++) start[j + 1] += start[j];
  const at = start.slice(0, size);
  const next = new Int32Array(start[size]);
  for (let j = 0; j < size; j++) {
    for (let p = columnStart[j] + 1; p < columnStart[j + 1]; p++) { next[at[j]++] = rows[p]; next[at[rows[p]]++] = j; }
  }
  return { start, next };
}
