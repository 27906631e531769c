import type { Surface } from './surface.ts';
import type { SurfacePoint } from './surface-point.ts';
import { pointOnSurface } from './surface-point.ts';

/**
 * A coarse map of distances over a surface: Dijkstra's search over its points and some places on
 * each edge, a step going straight through one triangle. Lengths come out a few per cent too long
 * (directions are limited); which way the shortest line takes is what it is for.
 */
export interface NodeSearch {
  /** Per node (see `SearchNodes`). Infinity where not reached. */
  readonly distance: Float64Array;
  /** Node before, -1 at those that were stepped to from the source itself. */
  readonly before: Int32Array;
  /** Triangle that the step to the node went through. */
  readonly through: Int32Array;
}

/** Nodes of a surface, made once for several searches: points first, then `perEdge` places evenly along each edge. */
export interface SearchNodes {
  readonly perEdge: number;
  /** Three entries a node. */
  readonly positions: Float64Array;
  /** `3 + 3 perEdge` nodes a triangle. */
  readonly ofTriangle: Int32Array;
  /** For each edge, one or both of its half-edges (-1 for none). */
  readonly edgeSides: Int32Array;
}

/** A step of a line: into `node` (-1: the line's own end) through `triangle`. */
export interface Hop { readonly node: number; readonly triangle: number }

export function placeNodes(surface: Surface, perEdge: number): SearchNodes {
  const { triangles, pointCount, triangleCount } = surface;
  const positions = new Float64Array(3 * (pointCount + perEdge * surface.edgeCount));
  positions.set(surface.positions);
  const stride = 3 + 3 * perEdge;
  const ofTriangle = new Int32Array(stride * triangleCount);
  const edgeSides = new Int32Array(2 * surface.edgeCount).fill(-1);
  for (let h = 0; h < triangles.length; h++) {
    const edge = surface.edgeOf[h];
    const first = pointCount + perEdge * edge;
    const isSecond = edgeSides[2 * edge] !== -1;
    edgeSides[2 * edge + (isSecond ? 1 : 0)] = h;
    const t = (h / 3) | 0;
    ofTriangle[stride * t + (h % 3)] = triangles[h];
    for (let j = 0; j < perEdge; j++) ofTriangle[stride * t + 3 + perEdge * (h % 3) + j] = first + j;
    if (isSecond) continue;
    const from = 3 * triangles[h];
    const to = 3 * triangles[h % 3 === 2 ? h - 2 : h + 1];
    for (let j = 0; j < perEdge; j++) {
      const share = (j + 1) / (perEdge + 1);
      for (let d = 0; d < 3; d++) {
        positions[3 * (first + j) + d] = (1 - share) * surface.positions[from + d] + share * surface.positions[to + d];
      }
    }
  }
  return { perEdge, positions, ofTriangle, edgeSides };
}

/** Distances from a point through triangles with `isOpen` (all if null). */
export function searchNodes(
  surface: Surface, nodes: SearchNodes, source: SurfacePoint, isOpen: Uint8Array | null,
): NodeSearch {
  const { perEdge, positions, ofTriangle, edgeSides } = nodes;
  const count = positions.length / 3;
  const stride = 3 + 3 * perEdge;
  const distance = new Float64Array(count).fill(Infinity);
  const before = new Int32Array(count).fill(-1);
  const through = new Int32Array(count).fill(-1);
  const isSettled = new Uint8Array(count);
  const heap = createHeap();

  const reach = (triangle: number, from: number, x: number, y: number, z: number, base: number): void => {
    if (isOpen !== null && isOpen[triangle] === 0) return;
    for (let k = stride * triangle; k < stride * (triangle + 1); k++) {
      const node = ofTriangle[k];
      if (isSettled[node]) continue;
      const dx = positions[3 * node] - x;
      const dy = positions[3 * node + 1] - y;
      const dz = positions[3 * node + 2] - z;
      const length = base + Math.sqrt(dx * dx + dy * dy + dz * dz);
      if (length >= distance[node]) continue;
      distance[node] = length;
      before[node] = from;
      through[node] = triangle;
      heap.push(length, node);
    }
  };

  const [x, y, z] = pointOnSurface(surface, source);
  for (const triangle of trianglesAt(surface, source)) reach(triangle, -1, x, y, z, 0);
  for (let node = heap.pop(); node !== -1; node = heap.pop()) {
    if (isSettled[node]) continue;
    isSettled[node] = 1;
    const base = distance[node];
    const [nx, ny, nz] = [positions[3 * node], positions[3 * node + 1], positions[3 * node + 2]];
    if (node < surface.pointCount) {
      for (let i = surface.fanStart[node]; i < surface.fanStart[node + 1]; i++) reach(surface.fans[i], node, nx, ny, nz, base);
      continue;
    }
    const edge = ((node - surface.pointCount) / perEdge) | 0;
    reach((edgeSides[2 * edge] / 3) | 0, node, nx, ny, nz, base);
    if (edgeSides[2 * edge + 1] !== -1) reach((edgeSides[2 * edge + 1] / 3) | 0, node, nx, ny, nz, base);
  }
  return { distance, before, through };
}

/** Triangles that have the point in them or on their rim. */
export function trianglesAt(surface: Surface, point: SurfacePoint): number[] {
  const used = [0, 1, 2].filter((k) => point.weights[k] > 1e-9);
  if (used.length === 1) {
    const at = surface.triangles[3 * point.triangle + used[0]];
    return [...surface.fans.subarray(surface.fanStart[at], surface.fanStart[at + 1])];
  }
  if (used.length === 3) return [point.triangle];
  const half = 3 * point.triangle + (used[0] === 0 && used[1] === 2 ? 2 : used[0]);
  const twin = surface.twins[half];
  return twin === -1 ? [point.triangle] : [point.triangle, (twin / 3) | 0];
}

/** Steps from a search's source to a node, in order. */
export function hopsTo(search: NodeSearch, node: number): Hop[] {
  const hops: Hop[] = [];
  for (let at = node; at !== -1; at = search.before[at]) hops.push({ node: at, triangle: search.through[at] });
  return hops.reverse();
}

interface Heap { push(key: number, item: number): void; pop(): number }

/** Least key first; equal keys by item, so that the order never depends on history. */
function createHeap(): Heap {
  const keys: number[] = [];
  const items: number[] = [];
  const isLess = (key: number, item: number, at: number): boolean => key < keys[at] || (key === keys[at] && item < items[at]);
  return {
    push(key, item): void {
      let at = keys.length;
      keys.push(key);
      items.push(item);
      while (at > 0) {
        const up = (at - 1) >> 1;
        if (!isLess(key, item, up)) break;
        keys[at] = keys[up];
        items[at] = items[up];
        at = up;
      }
      keys[at] = key;
      items[at] = item;
    },
    pop(): number {
      if (keys.length === 0) return -1;
      const top = items[0];
      const key = keys[keys.length - 1];
      const item = items[items.length - 1];
      keys.pop();
      items.pop();
      const count = keys.length;
      if (count === 0) return top;
      let at = 0;
      for (let low = 1; low < count; low = 2 * at + 1) {
        if (low + 1 < count && isLess(keys[low + 1], items[low + 1], low)) low++;
        if (isLess(key, item, low)) break;
        keys[at] = keys[low];
        items[at] = items[low];
        at = low;
      }
      keys[at] = key;
      items[at] = item;
      return top;
    },
  };
}
