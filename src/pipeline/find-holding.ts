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

/** Needles in a picture of a machine, all of the front bed first. */
export interface ShownNeedles {
  readonly first: number;
  readonly last: number;
  /** Where loops hang on them, three entries a needle. */
  readonly places: Float64Array;
}

/** The needles that carry loops after any of the passes from one to another, and some more at each side. */
export function findNeedles({ plan: { needlesPerBed, needlePitchMm }, trace }: KnittedSock, fromPass: number, toPass: number): ShownNeedles {
  let low = needlesPerBed, high = 1;
  for (let k = 2 * fromPass * needlesPerBed; k < 2 * (toPass + 1) * needlesPerBed; k++) {
    if (trace.needleStates[k] === NEEDLE.empty) continue;
    low = Math.min(low, k % needlesPerBed + 1);
    high = Math.max(high, k % needlesPerBed + 1);
  }
  const first = Math.max(1, low - NEEDLES_BESIDE), last = Math.min(needlesPerBed, high + NEEDLES_BESIDE), beds = { needlesPerBed, needlePitchMm, gapMm: BED_GAP_MM };
  const numbers = Array.from({ length: last - first + 1 }, (_, i) => first + i);
  return { first, last, places: Float64Array.from(BEDS.flatMap((bed) => numbers.flatMap((needle) => needlePlace(beds, { bed, needle })))) };
}

/** NEEDLE codes of those needles after a pass, as the trace has them. */
export function needleStatesAt({ trace: { needleStates, needlesPerBed } }: KnittedSock, { first, last }: ShownNeedles, pass: number): Uint8Array {
  const states = new Uint8Array(2 * (last - first + 1));
  BEDS.forEach((bed, side) => {
    const at = (2 * pass + BED[bed]) * needlesPerBed;
    states.set(needleStates.subarray(at + first - 1, at + last), side * (last - first + 1));
  });
  return states;
}

/** What holds a piece on the machine after a pass: needles as the trace has them, comb and claw where the pose has the cloth. */
export function findHolding(sock: KnittedSock, pass: number, { fabric, grid }: { readonly fabric: Fabric; readonly grid: StitchGrid }, claw: Int32Array, positions: Float64Array): Holding {
  const shown = findNeedles(sock, pass, pass);
  const edge = Array.from(fabric.vertexLoop.keys()).filter((v) => grid.kind[fabric.vertexLoop[v]] === LOOP.castOn);
  return {
    needlePitchMm: sock.plan.needlePitchMm, needles: shown.places, states: needleStatesAt(sock, shown, pass),
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
