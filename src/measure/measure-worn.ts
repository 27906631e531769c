import { findFit } from './find-fit.ts';
import type { WornReading, WornSummary } from './fit-answer.ts';
import { measureGaps } from './measure-gaps.ts';
import { measurePressure, vertexAreas } from './measure-pressure.ts';
import { measureRest } from './measure-rest.ts';
import { lineLength, placePath } from './polyline.ts';
import { ballGirthOf, isAtAnkle, isOfLeg, meanOf, reachesAnkle } from './worn-sock.ts';
import type { WornSock } from './worn-sock.ts';

/** Depth of the band under the top edge in which pressure is told, mm; the type's contract. */
const TOP_BAND_MM = 20;
/** Cloth that stands off by more counts as a gap, mm; the type's contract. */
const GAP_MM = 2;
/** Part of the cloth that presses less hard than `pressure95MmHg`. */
const MOST_OF_CLOTH = 0.95;

/** Pressure, gaps and the answers of a sock on a foot. */
export function measureWorn(sock: WornSock): WornReading {
  const { fabric, foot, positions, forces, clearanceMm } = sock;
  const vertexGapMm = measureGaps(positions, foot, clearanceMm), vertexPressureMmHg = measurePressure(fabric, positions, forces, vertexGapMm);
  const { areas } = vertexAreas(fabric, positions);
  const meanIn = (isIn: (v: number) => boolean): number | null => meanOf(vertexPressureMmHg, areas, isIn);
  const summary: WornSummary = {
    topPressureMmHg: meanIn((v) => isOfLeg(fabric, v) && fabric.vertexRow[v] * fabric.waleMm <= TOP_BAND_MM),
    anklePressureMmHg: reachesAnkle(sock) ? meanIn((v) => isAtAnkle(sock, v)) : null,
    pressure95MmHg: percentile(vertexPressureMmHg, areas, MOST_OF_CLOTH),
    gapPercent: 100 * (meanOf(vertexGapMm.map((gap) => (gap > GAP_MM ? 1 : 0)), areas, () => true) ?? 0),
    heelToFootStretch: heelToFootStretch(sock),
  };
  return { vertexPressureMmHg, vertexGapMm, summary, fit: findFit(sock, { vertexPressureMmHg, vertexGapMm, areas, summary }) };
}

function percentile(values: Float64Array, areas: Float64Array, share: number): number {
  const order = Int32Array.from(values, (_, i) => i).sort((a, b) => values[a] - values[b]);
  const total = areas.reduce((sum, area) => sum + area, 0);
  let held = 0;
  for (const v of order) {
    held += areas[v];
    if (held >= share * total) return values[v];
  }
  return 0;
}

/**
 * The marked diagonal's worn over rest length, over the same of the foot's girth, which is taken where a
 * tape takes it: round the ball.
 */
function heelToFootStretch({ plan, fabric, foot, positions }: WornSock): number | null {
  const rest = measureRest(plan), girth = ballGirthOf(fabric, foot, positions), diagonal = fabric.marks?.heelDiagonal;
  if (girth === null || diagonal === undefined || rest.heelDiagonalMm === null || rest.footGirthMm === null) return null;
  return lineLength(placePath(diagonal, positions)) / rest.heelDiagonalMm / (girth / rest.footGirthMm);
}
