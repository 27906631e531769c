import type { Fabric } from '../fabric/fabric.ts';
import { SECTION } from '../machine/codes.ts';
import { PARENTS } from '../solve/index.ts';
import type { Interpolation } from '../solve/index.ts';
import { isFanToeSection, isHeelSection } from './sock-profile.ts';

/** Parts of a sock along its wales, in the order in which a wale meets them. */
const PART = { leg: 0, ankle: 1, heel: 2, foot: 3, toe: 4, fanToe: 5 } as const;
const PART_COUNT = 6;
/** A place this far beyond a wale's last loops is still read off their line, in steps from loop to loop. */
const BEYOND = 0.6;
/** Turns closer than this are one. */
const TURN_STEP = 1e-6;

/** The loops of one wale in order, and the turn at which it stands. */
interface Wale { readonly turn: number; readonly vertices: number[] }

/**
 * Where each vertex of one sock lies between the vertices of another: at the same share of the same
 * part, along the wales and around. So a shape can be carried from a sock to one with other counts,
 * or with larger stitches. The two need not be alike.
 */
export function interpolateSock(from: Fabric, to: Fabric): Interpolation {
  const along = placesAlong(from), wanted = placesAlong(to), wales = sortWales(from, along);
  const nodes = new Int32Array(PARENTS * to.vertexCount), weights = new Float64Array(PARENTS * to.vertexCount);
  for (let v = 0; v < to.vertexCount; v++) {
    const turn = turnOf(to, v), next = firstAbove(wales.length, (k) => wales[k].turn > turn + TURN_STEP);
    const left = wales[(next + wales.length - 1) % wales.length], right = wales[next % wales.length];
    const gap = wrap(right.turn - left.turn), share = gap > TURN_STEP ? Math.min(1, wrap(turn - left.turn + TURN_STEP) / gap) : 0;
    const isOnWale = share * gap <= 2 * TURN_STEP;
    placeOnWale(left.vertices, along, wanted[v], isOnWale ? 1 : 1 - share, PARENTS * v);
    placeOnWale(right.vertices, along, wanted[v], isOnWale ? 0 : share, PARENTS * v + 2);
  }
  return { coarseCount: from.vertexCount, nodes, weights };

  /** The two loops of a wale that a place lies between, and their shares of `weight`. */
  function placeOnWale(vertices: readonly number[], places: Float64Array, place: number, weight: number, at: number): void {
    const above = firstAbove(vertices.length, (k) => places[vertices[k]] >= place);
    const low = Math.max(0, Math.min(vertices.length - 2, above - 1)), high = Math.min(vertices.length - 1, low + 1);
    const a = vertices[low], b = vertices[high], span = places[b] - places[a];
    const share = span > 0 ? Math.min(1 + BEYOND, Math.max(-BEYOND, (place - places[a]) / span)) : 0;
    nodes[at] = a;
    nodes[at + 1] = b;
    weights[at] = weight * (1 - share);
    weights[at + 1] = weight * share;
  }
}

/** Positions of a sock's vertices read off the shape of another. Positions flat, mm. */
export function mapShape({ nodes, weights }: Interpolation, positions: Float64Array): Float64Array {
  const out = new Float64Array(3 * weights.length / PARENTS);
  for (let p = 0; p < weights.length; p++) {
    const v = 3 * Math.floor(p / PARENTS), from = 3 * nodes[p], w = weights[p];
    out[v] += w * positions[from]; out[v + 1] += w * positions[from + 1]; out[v + 2] += w * positions[from + 2];
  }
  return out;
}

function turnOf(fabric: Fabric, vertex: number): number { return wrap(fabric.vertexAround[vertex]); }

function wrap(turn: number): number { return turn - Math.floor(turn); }

/** First index that fulfils a condition which holds from some index on; `count` if none does. */
function firstAbove(count: number, isAbove: (index: number) => boolean): number {
  let low = 0, high = count;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isAbove(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Which wale of so many: each stands in the middle of its place. Loops between two, as every other round of a slanted toe has, count to the one before. */
function placeOf(turn: number, wales: number): number { return Math.ceil(turn * wales - 1 - wales * TURN_STEP); }

function sortWales(fabric: Fabric, along: Float64Array): Wale[] {
  const wales = new Map<number, Wale>();
  for (let v = 0; v < fabric.vertexCount; v++) {
    const turn = turnOf(fabric, v), key = placeOf(turn, fabric.boundaryVertices.length), wale = wales.get(key);
    if (wale === undefined) wales.set(key, { turn, vertices: [v] });
    else wale.vertices.push(v);
  }
  for (const { vertices } of wales.values()) vertices.sort((a, b) => along[a] - along[b]);
  return [...wales.values()].sort((a, b) => a.turn - b.turn);
}

/** Part of each vertex plus its share of the way through that part: rows by their number, short rows by their place in the fan. */
function placesAlong(fabric: Fabric): Float64Array {
  const least = new Float64Array(PART_COUNT).fill(Infinity), most = new Float64Array(PART_COUNT).fill(-Infinity);
  const parts = Uint8Array.from({ length: fabric.vertexCount }, (_, v) => partOf(fabric.vertexSection[v]));
  for (let v = 0; v < fabric.vertexCount; v++) {
    least[parts[v]] = Math.min(least[parts[v]], fabric.vertexRow[v]);
    most[parts[v]] = Math.max(most[parts[v]], fabric.vertexRow[v]);
  }
  const places = new Float64Array(fabric.vertexCount);
  for (let v = 0; v < fabric.vertexCount; v++) {
    const part = parts[v], isFan = part === PART.heel || part === PART.fanToe;
    places[v] = part + (isFan ? fabric.vertexFan[v] : (fabric.vertexRow[v] - least[part] + 0.5) / (most[part] - least[part] + 1));
  }
  return places;
}

function partOf(section: number): number {
  if (isHeelSection(section)) return PART.heel;
  if (isFanToeSection(section)) return PART.fanToe;
  if (section === SECTION.foot) return PART.foot;
  if (section === SECTION.toe) return PART.toe;
  return section <= SECTION.leg ? PART.leg : PART.ankle;
}
