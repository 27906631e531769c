import { pointDistance } from './polyline.ts';
import { hopsTo, placeNodes, searchNodes, trianglesAt } from './search-nodes.ts';
import { straightenLine } from './straighten-line.ts';
import type { SurfaceLine } from './straighten-line.ts';
import type { Surface } from './surface.ts';
import type { SurfacePoint } from './surface-point.ts';
import { pointOnSurface } from './surface-point.ts';

/** Enough for the right side of a bump to be told where the two differ by half a per cent, on cells of any usual shape. */
const PLACES_PER_EDGE = 3;

/**
 * A shortest line across the faces from one point to another; null where no way leads. The side
 * that it passes bumps on comes from a coarse search, its course and length from exact straightening.
 * @param isOpen 1 for triangles that the coarse search may use; all without it.
 */
export function findShortestLine(
  surface: Surface, from: SurfacePoint, to: SurfacePoint, isOpen: Uint8Array | null = null,
): SurfaceLine | null {
  const goals = trianglesAt(surface, to);
  const direct = goals.find((t) => trianglesAt(surface, from).includes(t));
  if (direct !== undefined) return straightenLine(surface, from, to, [{ node: -1, triangle: direct }]);
  const nodes = placeNodes(surface, PLACES_PER_EDGE);
  const stride = 3 + 3 * PLACES_PER_EDGE;
  const search = searchNodes(surface, nodes, from, isOpen);
  const end = pointOnSurface(surface, to);
  let best = Infinity;
  let bestNode = -1;
  let bestTriangle = -1;
  for (const triangle of goals) {
    for (const node of nodes.ofTriangle.subarray(stride * triangle, stride * (triangle + 1))) {
      const rest = pointDistance(nodes.positions, node, end, 0);
      if (search.distance[node] + rest >= best) continue;
      best = search.distance[node] + rest;
      bestNode = node;
      bestTriangle = triangle;
    }
  }
  if (bestNode === -1) return null;
  return straightenLine(surface, from, to, [...hopsTo(search, bestNode), { node: -1, triangle: bestTriangle }]);
}
