import type { Fabric, FabricMarks } from '../fabric/fabric.ts';
import { PART, listHeelCells, sortTriangles } from './heel-region.ts';
import { hopsTo, placeNodes, searchNodes } from './search-nodes.ts';
import type { Hop, NodeSearch, SearchNodes } from './search-nodes.ts';
import { straightenLine } from './straighten-line.ts';
import type { SurfaceLine } from './straighten-line.ts';
import { buildSurface } from './surface.ts';
import type { Surface } from './surface.ts';
import { findOnSurface } from './surface-point.ts';

/**
 * How far from the heel's level the line is looked for on the tube, as a share of the tube's girth.
 * At rest the line crosses the instep along one row; measured on flat and tube poses at five plans
 * and two stages of relaxing, bands from 0.08 to 0.3 give the same line.
 */
const BAND_OF_GIRTH = 0.12;

/**
 * The shortest closed line on a pose through the middle of the heel's short base and over the
 * instep. From the middle, the shortest ways through the left half of the sock and through the
 * right half are sought to every place of the instep's centre line, once through the cloth of the
 * turning down and once through that of the turning out (at rest the two are equally long, with the
 * end of the short base between them). Each of the four closed lines is then pulled tight as a
 * whole, so that the two halves meet where that makes it shortest.
 */
export function measureHeelTip(fabric: Fabric, marks: FabricMarks, positions: Float64Array): SurfaceLine | null {
  const { baseMiddle, instepAtHeel } = marks;
  if (baseMiddle.a.length === 0 || instepAtHeel.a.length === 0) return null;
  const rows = Math.ceil((BAND_OF_GIRTH * tubeStitches(marks) * fabric.courseMm) / fabric.waleMm);
  const cells = listHeelCells(fabric, fabric.vertexRow[instepAtHeel.a[0]], rows);
  const surface = buildSurface(fabric, positions, cells);
  const source = findOnSurface(surface, baseMiddle.a[0], baseMiddle.b[0], baseMiddle.t[0]);
  if (source === null) return null;
  const parts = sortTriangles(fabric, surface);
  const nodes = placeNodes(surface, 1);
  const goals = listFrontNodes(surface, nodes, parts);
  const ways = [PART.left, PART.right].map((side) => [PART.heelIn, PART.heelOut].map((closed) => (
    searchNodes(surface, nodes, source, parts.map((part) => Number((part & side) !== 0 && (part & closed) === 0)))
  )));
  let best: SurfaceLine | null = null;
  for (const left of ways[0]) {
    for (const right of ways[1]) {
      const hops = joinHalves(left, right, goals);
      const line = hops === null ? null : straightenLine(surface, source, source, hops);
      if (line !== null && (best === null || line.lengthMm < best.lengthMm)) best = line;
    }
  }
  return best;
}

function tubeStitches(marks: FabricMarks): number {
  const round = [...marks.footRounds, ...marks.legRounds].at(0);
  return round === undefined ? marks.cuff.a.length : round.a.length;
}

/** Nodes of cells that lie across the centre front. */
function listFrontNodes(surface: Surface, nodes: SearchNodes, parts: Uint8Array): number[] {
  const stride = nodes.ofTriangle.length / surface.triangleCount;
  const found = new Set<number>();
  for (let t = 0; t < surface.triangleCount; t++) {
    if ((parts[t] & PART.front) === 0) continue;
    for (let k = stride * t; k < stride * (t + 1); k++) found.add(nodes.ofTriangle[k]);
  }
  return [...found];
}

/** Out through one half and back through the other, by the instep place that makes it shortest. */
function joinHalves(out: NodeSearch, back: NodeSearch, goals: readonly number[]): Hop[] | null {
  let best = Infinity;
  let bestNode = -1;
  for (const node of goals) {
    const length = out.distance[node] + back.distance[node];
    if (length >= best) continue;
    best = length;
    bestNode = node;
  }
  if (bestNode === -1) return null;
  const way = hopsTo(back, bestNode);
  const home = way.map((hop, i): Hop => ({ node: i === 0 ? -1 : way[i - 1].node, triangle: hop.triangle })).reverse();
  return [...hopsTo(out, bestNode), ...home];
}
