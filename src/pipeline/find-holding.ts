import type { Fabric } from '../fabric/fabric.ts';
import { BED, LOOP, NEEDLE } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Bed } from '../plan/sock-file.ts';
import { BED_GAP_MM } from '../shape/beds-pose.ts';
import { needlePlace } from '../shape/beds-start.ts';
import type { Holding, KnittedSock } from './result.ts';

/** Needles shown beyond the outermost that carry loops, at each side. */
const NEEDLES_BESIDE = 4;
const BEDS: readonly Bed[] = ['front', 'back'];

/** What holds a piece on the machine after a pass: needles as the trace has them, comb and claw where the pose has the cloth. */
export function findHolding({ plan, trace }: KnittedSock, pass: number, { fabric, grid }: { readonly fabric: Fabric; readonly grid: StitchGrid }, claw: Int32Array, positions: Float64Array): Holding {
  const { needlesPerBed, needlePitchMm } = plan, beds = { needlesPerBed, needlePitchMm, gapMm: BED_GAP_MM };
  const stateOf = (bed: Bed, needle: number): number =>
    trace.needleStates[(2 * pass + BED[bed]) * needlesPerBed + needle - 1];
  const carrying = Array.from({ length: needlesPerBed }, (_, i) => i + 1).filter((needle) => BEDS.some((bed) => stateOf(bed, needle) !== NEEDLE.empty));
  const first = Math.max(1, (carrying[0] ?? 1) - NEEDLES_BESIDE), last = Math.min(needlesPerBed, (carrying.at(-1) ?? 0) + NEEDLES_BESIDE);
  const places: number[] = [], states: number[] = [];
  for (const bed of BEDS) {
    for (let needle = first; needle <= last; needle++) {
      places.push(...needlePlace(beds, { bed, needle }));
      states.push(stateOf(bed, needle));
    }
  }
  const edge = Array.from(fabric.vertexLoop.keys()).filter((v) => grid.kind[fabric.vertexLoop[v]] === LOOP.castOn);
  return {
    needlePitchMm, needles: Float64Array.from(places), states: Uint8Array.from(states),
    edge: Float64Array.from(edge.flatMap((v) => [...positions.subarray(3 * v, 3 * v + 3)])),
    claw: middleOf(claw, positions),
  };
}

function middleOf(vertices: Int32Array, positions: Float64Array): Holding['claw'] {
  if (vertices.length === 0) return null;
  const sum: [number, number, number] = [0, 0, 0];
  for (const v of vertices) for (let axis = 0; axis < 3; axis++) sum[axis] += positions[3 * v + axis] / vertices.length;
  return sum;
}
