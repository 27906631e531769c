import type { Fabric } from '../fabric/fabric.ts';
import { LOOP, SECTION } from '../machine/codes.ts';
import type { PieceOnNeedles } from '../machine/grid-at-pass.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { createBending, createDirectionHold, createDistanceContact, createGravity, createPins, createPreconditioner, createSlab } from '../solve/index.ts';
import type { DistanceField, EnergyTerm } from '../solve/index.ts';
import { hangWales, startOnBeds } from './beds-start.ts';
import type { Beds, Hanging } from './beds-start.ts';
import { makeBridges, partBridges } from './bridge-cloth.ts';
import { makeClothBending } from './cloth-bending.ts';
import { METRIC_SHIFT } from './pose-problem.ts';
import { clothOf, PLATE_STIFFNESS, SOCK_CLOTH } from './cloth-table.ts';
import type { Firmness } from './cloth-table.ts';
import { findPouches, isPouchSection, makePouchContacts } from './pouch-contact.ts';
import type { Pouches } from './pouch-contact.ts';
import { doubleArea, restPolygon } from './rest-polygon.ts';
import { makeStretchedCloth } from './rib-cloth.ts';
import { isHeelSection } from './sock-profile.ts';
import type { PoseSetUp } from './pose-set-up.ts';

/** Distance between the two rows of needles where loops hang, mm. Common practice, no source: hand-fed double beds leave a finger's breadth less. `chosen by eye`. */
export const BED_GAP_MM = 7;
/** Weights hung along the cast-on edge, and on the heel while it is turned, N. `chosen by eye`: three and one of 100 g. */
export const EDGE_WEIGHT_N = 3;
export const HEEL_WEIGHT_N = 1;
/** Weight of the cloth, N/mm^2: 300 g/m^2, `chosen by eye`, as in the table of cloth. */
export const CLOTH_WEIGHT = 300e-9 * 9.81;
/** Stiffness of a needle against its loop, N/mm: a tenth of a millimetre for 2 N. */
export const NEEDLE_STIFFNESS = 20;
/** Stiffness of the beds' edge against each loop that would rise over it, N/mm. `chosen by eye`: cloth gives way by less than its thickness. */
export const VERGE_STIFFNESS = 0.03;
/** Stiffness with which the bars that carry the weights keep each cast-on loop's place along the beds, N/mm. `chosen by eye`. */
export const BAR_STIFFNESS = 0.05;
/** Share of the cloth's metric: drawn to the needles' pitch it is stiffer than at rest. `measured`: fewest iterations. */
const CLOTH_METRIC_SHARE = 4;
/** The heel's weight hangs on loops this near to the heel's middle, as a share of its breadth, and to that of their wales' rows. */
const CLAW_SHARE = 0.15;

/** A piece on the machine, to be hung up. */
export interface PieceOnBeds extends PieceOnNeedles {
  /** The cloth of `grid`. */
  readonly fabric: Fabric;
  readonly needlesPerBed: number;
  readonly needlePitchMm: number;
  /** Default soft. */
  readonly firmness?: Firmness;
}

export interface BedsSetUp extends PoseSetUp {
  /** Vertices on needles, and those needles' places: three entries each, mm. */
  readonly live: Int32Array;
  readonly places: Float64Array;
  /** Vertices on which the heel's weight hangs; none while no heel is turned. */
  readonly claw: Int32Array;
}

/** How a piece hangs before anything pulls at it. */
interface HungUp {
  readonly beds: Beds;
  readonly hanging: Hanging;
  readonly pouches: Pouches;
  /** Three entries a vertex, mm. */
  readonly start: Float64Array;
  readonly claw: Int32Array;
}

/** The start of the pose on the beds, by rule: quick, and some centimetres off where weights stretch the cloth. */
export function hangUp({ fabric, grid, liveNeedles, needlesPerBed, needlePitchMm }: PieceOnBeds): HungUp {
  const beds: Beds = { needlesPerBed, needlePitchMm, gapMm: BED_GAP_MM };
  const hanging = hangWales(fabric, grid, liveNeedles, beds), pouches = findPouches(fabric, grid);
  return { beds, hanging, pouches, start: startOnBeds(fabric, pouches, hanging, beds), claw: Int32Array.from(clawed(fabric, hanging, pouches)) };
}

/**
 * A piece hanging from the machine: x along the beds from their middle to the right, y from the front
 * bed to the back, z up from the needles. Every live loop is held on its needle; the cloth hangs between
 * the beds by its own weight and by weights along the cast-on edge, and on the pouch while a heel is
 * turned. A tube's layers keep to the side of their bed.
 */
export function setUpBeds(piece: PieceOnBeds): BedsSetUp {
  const { fabric, grid, firmness = 'soft' } = piece, { beds, hanging, pouches, start, claw } = hangUp(piece);
  const places = Float64Array.from({ length: 3 * hanging.live.length }, (_, i) => hanging.needles[3 * hanging.live[Math.floor(i / 3)] + i % 3]);
  const { plain, bridges } = partBridges(fabric, hanging, beds);
  const cloth = [...makeStretchedCloth(plain, 'fresh', firmness), ...makeBridges(bridges, clothOf(firmness).law)], bending = createBending(makeClothBending(fabric, clothOf(firmness)));
  const pins = createPins({ nodes: hanging.live, places, stiffness: NEEDLE_STIFFNESS });
  const layers = makeLayers(fabric, hanging, pouches, beds.gapMm), bars = makeBars(fabric, grid, start);
  const terms = [
    ...cloth, bending, pins, bars, createGravity(weighCloth(fabric, grid, claw), [0, 0, -1]),
    layers, ...makePouchContacts(fabric, grid, pouches, hanging.side), ...makeBeds(fabric, beds), makeVerge(fabric),
  ];
  const stretched = cloth.map((term) => ({ term, factor: CLOTH_METRIC_SHARE })), held = { term: pins, factor: 1 };
  return {
    problem: {
      terms, bending,
      preconditioner: createPreconditioner(fabric.vertexCount, [
        { axes: [0, 2], parts: [...stretched, held, { term: bars, factor: 1 }] }, { axes: [1], parts: [...stretched, held, { term: layers, factor: 1 }] },
      ], METRIC_SHIFT),
    },
    start, live: hanging.live, places, claw,
  };
}

/** Weight on every vertex, N: its share of the cloth, of the weights on the cast-on edge, and of that on the heel. */
function weighCloth(fabric: Fabric, grid: StitchGrid, claw: ArrayLike<number>): Float64Array {
  const weights = new Float64Array(fabric.vertexCount);
  for (let cell = 0; cell + 1 < fabric.cellStart.length; cell++) {
    const polygon = restPolygon(fabric, cell);
    let area = 0;
    for (let k = 1; k + 1 < polygon.length; k++) area += doubleArea(polygon[0], polygon[k], polygon[k + 1]) / 2;
    for (const { vertex } of polygon) weights[vertex] += CLOTH_WEIGHT * area / polygon.length;
  }
  spread(weights, verticesWhere(fabric, (v) => grid.kind[fabric.vertexLoop[v]] === LOOP.castOn), EDGE_WEIGHT_N);
  spread(weights, claw, HEEL_WEIGHT_N);
  return weights;
}

/** Where the heel's weight hangs, while the last pass is one of the heel: the middle of its breadth and of each wale's rows there. */
function clawed(fabric: Fabric, { needles }: Hanging, { place }: Pouches): number[] {
  const heel = verticesWhere(fabric, (v) => isHeelSection(fabric.vertexSection[v]));
  if (heel.length === 0 || !isHeelSection(fabric.vertexSection[fabric.vertexCount - 1])) return [];
  let low = Infinity, high = -Infinity;
  for (const v of heel) {
    low = Math.min(low, needles[3 * v]);
    high = Math.max(high, needles[3 * v]);
  }
  const isMiddle = (v: number): boolean => Math.abs(needles[3 * v] - (low + high) / 2) <= CLAW_SHARE * (high - low);
  const claws = heel.filter((v) => isMiddle(v) && Math.abs(place[v] - 0.5) <= CLAW_SHARE);
  return claws.length > 0 ? claws : heel.filter(isMiddle);
}

function verticesWhere(fabric: Fabric, isOne: (v: number) => boolean): number[] {
  return Array.from(fabric.vertexLoop.keys()).filter(isOne);
}

function spread(weights: Float64Array, vertices: ArrayLike<number>, total: number): void {
  for (let k = 0; k < vertices.length; k++) weights[vertices[k]] += total / vertices.length;
}

/** The weights hang on bars run through the cast-on edge, which keep its breadth: that of the start. */
function makeBars(fabric: Fabric, grid: StitchGrid, start: Float64Array): EnergyTerm {
  const nodes = verticesWhere(fabric, (v) => grid.kind[fabric.vertexLoop[v]] === LOOP.castOn);
  return createDirectionHold({
    nodes: Int32Array.from(nodes), directions: Float64Array.from(nodes.flatMap(() => [1, 0, 0])),
    offsets: Float64Array.from(nodes, (v) => start[3 * v]), stiffness: BAR_STIFFNESS,
  });
}

/**
 * Front cloth stays on the front of the middle plane, back cloth behind it, half a thickness off it but
 * near the tube's edges. While a heel (or short-row toe) is turned, the upper half of its rows hangs outside
 * the plane of their needles and all else inside: the pouch has not come down yet.
 */
function makeLayers(fabric: Fabric, { needles, side }: Hanging, pouches: Pouches, gapMm: number): EnergyTerm {
  const n = fabric.vertexCount, least = new Float64Array(n).fill(-Infinity), greatest = new Float64Array(n).fill(Infinity);
  let low = Infinity, high = -Infinity;
  for (let v = 0; v < n; v++) {
    low = Math.min(low, needles[3 * v]);
    high = Math.max(high, needles[3 * v]);
  }
  const newest = n - 1, isTurning = isPouchSection(fabric.vertexSection[newest]);
  for (let v = 0; v < n; v++) {
    const near = Math.min(SOCK_CLOTH.thicknessMm / 2, 0.1 * Math.min(needles[3 * v] - low, high - needles[3 * v]));
    const isAtPouch = isTurning && side[v] === side[newest] && isBesidePouch(fabric, pouches, v, newest), isOuter = pouches.place[v] > 0.5;
    const inmost = isAtPouch && isOuter ? gapMm / 2 : near, outmost = isAtPouch && !isOuter ? gapMm / 2 - near : Infinity;
    if (side[v] < 0) { greatest[v] = -inmost; least[v] = -outmost; }
    else if (side[v] > 0) { least[v] = inmost; greatest[v] = outmost; }
  }
  return createSlab({ axis: 1, least, greatest, stiffness: PLATE_STIFFNESS });
}

/** The edge of the beds over which loops are drawn down: no cloth rises above the needles. */
function makeVerge(fabric: Fabric): EnergyTerm {
  const n = fabric.vertexCount;
  return createSlab({ axis: 2, least: new Float64Array(n).fill(-Infinity), greatest: new Float64Array(n), stiffness: VERGE_STIFFNESS });
}

/** In the pouch that the newest loop is in, or no more rows below it than it has itself. */
function isBesidePouch(fabric: Fabric, { rows, distance }: Pouches, v: number, newest: number): boolean {
  const isOfToe = fabric.vertexSection[v] >= SECTION.foot, isToeTurned = fabric.vertexSection[newest] >= SECTION.foot;
  return isOfToe === isToeTurned && (isPouchSection(fabric.vertexSection[v]) || distance[v] >= 0 && distance[v] < rows[v]);
}

/** Undersides of the beds, which slope away from the gap at 45 degrees: cloth cannot rise into them. */
function makeBeds(fabric: Fabric, { gapMm }: Beds): EnergyTerm[] {
  const s = Math.SQRT1_2, clearances = new Float64Array(fabric.vertexCount);
  return [1, -1].map((sign) => {
    const field: DistanceField = {
      distanceAt(_x, y, z, normal) {
        normal[0] = 0; normal[1] = sign * s; normal[2] = -s;
        return s * (sign * y - z + gapMm / 2);
      },
    };
    return createDistanceContact({ field, clearances, stiffness: PLATE_STIFFNESS });
  });
}
