import type { Fabric, MarkPath } from '../fabric/fabric.ts';
import type { FootForm } from '../foot/foot-form.ts';
import { SECTION } from '../machine/codes.ts';
import type { Plan } from '../plan/plan-types.ts';
import { lineLength, placePath } from './polyline.ts';

/** A sock on a foot: its shape, and the forces of its cloth. */
export interface WornSock {
  readonly plan: Plan;
  readonly fabric: Fabric;
  readonly foot: FootForm;
  /** Three entries a vertex, mm. */
  readonly positions: Float64Array;
  /** Forces of the cloth on its vertices, three entries each, N. */
  readonly forces: Float64Array;
  /** Distance of cloth that lies on the skin, mm. */
  readonly clearanceMm: number;
}

/** Half the height of the band round the ankle's least girth that stands for it, mm. `chosen by eye`: a finger's breadth in all. */
const ANKLE_BAND_MM = 10;

/** Of all that is knitted before the heel. */
export function isOfLeg(fabric: Fabric, v: number): boolean { return fabric.vertexSection[v] < SECTION['heel-in']; }

/** Whether the top edge lies, on average, above the ankle's least girth. */
export function reachesAnkle({ fabric, foot, positions }: WornSock): boolean {
  const heights = Array.from(fabric.vertexSection.keys()).filter((v) => fabric.vertexSection[v] === SECTION['cast-on']).map((v) => positions[3 * v + 2]);
  return heights.length > 0 && heights.reduce((sum, z) => sum + z, 0) / heights.length > foot.ankleMm;
}

/** Cloth of the leg about the ankle's least girth. */
export function isAtAnkle({ fabric, foot, positions }: WornSock, v: number): boolean {
  return isOfLeg(fabric, v) && Math.abs(positions[3 * v + 2] - foot.ankleMm) <= ANKLE_BAND_MM;
}

/** Mean by area; null where there is nothing. */
export function meanOf(values: ArrayLike<number>, areas: Float64Array, isIn: (v: number) => boolean): number | null {
  let sum = 0, total = 0;
  for (let v = 0; v < areas.length; v++) {
    if (!isIn(v)) continue;
    sum += areas[v] * values[v];
    total += areas[v];
  }
  return total > 0 ? sum / total : null;
}

/** Length of the foot's rounds where they pass the ball, mm; of the nearest one if none does. */
export function ballGirthOf(fabric: Fabric, foot: FootForm, positions: Float64Array): number | null {
  const rounds = (fabric.marks?.footRounds ?? []).map((round) => readRound(round, positions)).sort((a, b) => a.x - b.x);
  if (rounds.length === 0) return null;
  const next = rounds.findIndex(({ x }) => x >= foot.ballMm), after = rounds[next === -1 ? rounds.length - 1 : next], before = rounds[Math.max(0, rounds.indexOf(after) - 1)];
  const span = after.x - before.x, share = span > 0 ? Math.min(1, Math.max(0, (foot.ballMm - before.x) / span)) : 0;
  return (1 - share) * before.length + share * after.length;
}

function readRound(round: MarkPath, positions: Float64Array): { readonly x: number; readonly length: number } {
  const line = placePath(round, positions), count = line.length / 3 - 1;
  let x = 0;
  for (let k = 0; k < count; k++) x += line[3 * k] / count;
  return { x, length: lineLength(line) };
}
