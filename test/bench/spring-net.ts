import type { Fabric } from '../../src/fabric/fabric.ts';
import { SOCK_CLOTH } from '../../src/shape/cloth-table.ts';
import { relaxSock } from '../../src/shape/relax-sock.ts';

/**
 * A sock's cloth as what any physics library can express: point masses, linear springs, constant
 * loads, fixed points. Lengths in mm, forces in N, energy sum of stiffness / 2 (length - rest)^2.
 */
export interface SpringNet {
  readonly fabric: Fabric;
  readonly nodeCount: number;
  /** Two nodes a spring. */
  readonly ends: Int32Array;
  readonly rest: Float64Array;
  readonly stiffness: Float64Array;
  readonly isPinned: Uint8Array;
  /** Constant load, three entries a node. */
  readonly loads: Float64Array;
  /** Where every solver starts. */
  readonly start: Float64Array;
  /** The shape whose distances are the rest lengths: some libraries take them from nowhere else. */
  readonly restShape: Float64Array;
}

/** Inner pressure, as a dead load on the start's faces, N/mm^2: strains of a percent or two, every spring taut. */
const PRESSURE = 1e-5;

/** How far the start is from the rest shape along x, y, z at the last row (growing from nothing at the pinned cuff), as shares of the distance from the cuff's middle. */
const START_STRETCH = [0.06, -0.15, 0.06] as const;

/**
 * Springs along courses and wales and across cells (which resist shear), as stiff as the cloth's
 * moduli make them. Rest lengths are those of the sock's relaxed tube; the cuff is pinned; the load
 * is a light pressure; the start is the rest shape drawn long and flat. One smooth minimum that two
 * solvers can agree on: springs have no bending, so that a start from far away would end in
 * whichever crumple it came to first.
 */
export function makeSpringNet(fabric: Fabric): SpringNet {
  const restShape = relaxSock(fabric, 'tube').positions;
  const { ends, stiffness } = gatherSprings(fabric);
  const rest = new Float64Array(stiffness.length);
  for (let k = 0; k < rest.length; k++) rest[k] = distance(restShape, ends[2 * k], ends[2 * k + 1]);
  const isPinned = new Uint8Array(fabric.vertexCount);
  for (const v of fabric.boundaryVertices) isPinned[v] = 1;
  return {
    fabric, nodeCount: fabric.vertexCount, ends, rest, stiffness, isPinned,
    loads: pressOutward(fabric, restShape), start: drawOut(fabric, restShape), restShape,
  };
}

function drawOut(fabric: Fabric, shape: Float64Array): Float64Array {
  const cuff = [0, 1, 2].map((axis) => {
    let sum = 0;
    for (const v of fabric.boundaryVertices) sum += shape[3 * v + axis];
    return sum / fabric.boundaryVertices.length;
  });
  let lastRow = 0;
  for (const row of fabric.vertexRow) lastRow = Math.max(lastRow, row);
  return shape.map((place, i) => place + START_STRETCH[i % 3] * fabric.vertexRow[Math.floor(i / 3)] / lastRow * (place - cuff[i % 3]));
}

function gatherSprings(fabric: Fabric): { ends: Int32Array; stiffness: Float64Array } {
  const { courseModulus, waleModulus, shearModulus } = SOCK_CLOTH.law;
  const { courseMm: a, waleMm: b } = fabric;
  const course = courseModulus * b / a, wale = waleModulus * a / b, across = shearModulus * (a * a + b * b) / (2 * a * b);
  const found = new Map<string, { from: number; to: number; stiffness: number }>();
  const add = (from: number, to: number, stiffness: number): void => {
    const key = `${Math.min(from, to)} ${Math.max(from, to)}`;
    if (from !== to && !found.has(key)) found.set(key, { from, to, stiffness });
  };
  const { cellStart, cellVertices, cellRestMm } = fabric;
  for (let cell = 0; cell + 1 < cellStart.length; cell++) {
    const first = cellStart[cell], size = cellStart[cell + 1] - first;
    for (let k = 0; k < size; k++) {
      const p = first + k, q = first + (k + 1) % size;
      const isCourse = Math.abs(cellRestMm[2 * q] - cellRestMm[2 * p]) > Math.abs(cellRestMm[2 * q + 1] - cellRestMm[2 * p + 1]);
      add(cellVertices[p], cellVertices[q], isCourse ? course : wale);
    }
  }
  for (let cell = 0; cell + 1 < cellStart.length; cell++) {
    const first = cellStart[cell], size = cellStart[cell + 1] - first;
    for (let k = 0; size > 3 && k < size; k++) add(cellVertices[first + k], cellVertices[first + (k + 2) % size], across);
  }
  const springs = [...found.values()];
  return { ends: Int32Array.from(springs.flatMap(({ from, to }) => [from, to])), stiffness: Float64Array.from(springs, (spring) => spring.stiffness) };
}

/** Each node's share of its faces' area vectors, times the pressure. */
function pressOutward(fabric: Fabric, x: Float64Array): Float64Array {
  const loads = new Float64Array(x.length);
  const { cellStart, cellVertices } = fabric;
  for (let cell = 0; cell + 1 < cellStart.length; cell++) {
    const first = cellStart[cell], size = cellStart[cell + 1] - first;
    for (let axis = 0; axis < 3; axis++) {
      const p = (axis + 1) % 3, q = (axis + 2) % 3;
      let doubleArea = 0;
      for (let k = 0; k < size; k++) {
        const i = 3 * cellVertices[first + k], j = 3 * cellVertices[first + (k + 1) % size];
        doubleArea += x[i + p] * x[j + q] - x[i + q] * x[j + p];
      }
      for (let k = 0; k < size; k++) loads[3 * cellVertices[first + k] + axis] += PRESSURE * doubleArea / 2 / size;
    }
  }
  return loads;
}

function distance(x: Float64Array, i: number, j: number): number {
  return Math.sqrt((x[3 * i] - x[3 * j]) ** 2 + (x[3 * i + 1] - x[3 * j + 1]) ** 2 + (x[3 * i + 2] - x[3 * j + 2]) ** 2);
}

/** Energy in the springs alone, mJ. */
export function elasticEnergy(net: SpringNet, x: Float64Array): number {
  let energy = 0;
  for (let k = 0; k < net.rest.length; k++) {
    const stretch = distance(x, net.ends[2 * k], net.ends[2 * k + 1]) - net.rest[k];
    energy += 0.5 * net.stiffness[k] * stretch * stretch;
  }
  return energy;
}
