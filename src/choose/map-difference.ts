import { EDGE } from '../fabric/fabric.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { interpolateSock } from '../shape/index.ts';
import { PARENTS } from '../solve/index.ts';
import { alignToes } from './align-toes.ts';
import type { DifferenceMap } from './comparison.ts';
import { acrossSock, hasFanToe, isAtBack, PART, PART_COUNT, partOf, wrapTurn } from './sock-parts.ts';

/** A sock's cloth in a shape; positions flat, three entries a vertex, mm. */
export interface ShapedSock {
  readonly fabric: Fabric;
  readonly positions: Float64Array;
}

/** Sweeps in which each vertex takes the mean of itself and its neighbours: a spread of some four stitches either way, so that the map shows places and not stitches. Chosen by eye. */
const SWEEPS = 16;

/**
 * Where the second sock is wider and longer than the first, in the same pose. Wider: the distance
 * from stitch to stitch along a course, times the stitches of a round there, against that at the same
 * share of the same part of the first sock (`interpolateSock`). Longer: the way along a wale through
 * the part in which a vertex lies, against that of the first sock's wale at the same place around. Both
 * evened out over some stitches. The two socks need not be alike.
 */
export function mapDifference(first: ShapedSock, second: ShapedSock): DifferenceMap {
  return { vertexWiderMm: mapWider(first, second), vertexLongerMm: mapLonger(first, second) };
}

function mapWider(first: ShapedSock, second: ShapedSock): Float64Array {
  const { nodes, weights } = interpolateSock(first.fabric, alignToes(second.fabric, first.fabric));
  const before = measureWidths(first), wider = measureWidths(second);
  for (let p = 0; p < weights.length; p++) wider[Math.floor(p / PARENTS)] -= weights[p] * before[nodes[p]];
  return wider;
}

/** Girth that each vertex's round would have if its stitches were all as far apart as there, mm. */
function measureWidths({ fabric, positions }: ShapedSock): Float64Array {
  const sum = new Float64Array(fabric.vertexCount), count = new Float64Array(fabric.vertexCount), round = countRounds(fabric);
  for (let e = 0; e < fabric.edgeKind.length; e++) {
    if (fabric.edgeKind[e] !== EDGE.course && fabric.edgeKind[e] !== EDGE.seam) continue;
    const a = fabric.edges[2 * e], b = fabric.edges[2 * e + 1], apart = distance(positions, a, b);
    for (const v of [a, b]) {
      sum[v] += apart * round[v];
      count[v]++;
    }
  }
  for (let v = 0; v < sum.length; v++) if (count[v] > 0) sum[v] /= count[v];
  return evenOut(fabric, sum, count.map((edges) => (edges > 0 ? 1 : 0)), () => true);
}

/** Stitches of the round in which a vertex lies: all of the cast-on, in a toe those of its pass on both beds. */
function countRounds(fabric: Fabric): Float64Array {
  const castOn = fabric.boundaryVertices.length, ofPass = new Map<number, number>();
  for (const pass of fabric.vertexPass) ofPass.set(pass, (ofPass.get(pass) ?? 0) + 1);
  return Float64Array.from(fabric.vertexSection, (section, v) => (partOf(section) === PART.toe ? 2 * (ofPass.get(fabric.vertexPass[v]) ?? 0) : castOn));
}

function mapLonger(first: ShapedSock, second: ShapedSock): Float64Array {
  const before = measureParts(first), after = measureParts(second), { fabric } = second;
  const longer = Float64Array.from(fabric.vertexSection, (section, v) => {
    const part = partOf(section), turn = wrapTurn(fabric.vertexAround[v]);
    return lengthAt(after, part, turn) - lengthAt(before, part, turn);
  });
  return evenOut(fabric, longer, new Float64Array(fabric.vertexCount).fill(1), (a, b) => partOf(fabric.vertexSection[a]) === partOf(fabric.vertexSection[b]));
}

/** Lengths of a sock's parts along its wales, mm: entry `PART_COUNT * wale + part`. */
interface PartLengths {
  /** Place of each wale around, ascending. */
  readonly turns: Float64Array;
  readonly lengths: Float64Array;
  readonly isFanToe: boolean;
}

const TURN_STEP = 1e-6;

function measureParts({ fabric, positions }: ShapedSock): PartLengths {
  const wales = new Map<number, number[]>();
  for (let v = 0; v < fabric.vertexCount; v++) {
    const key = Math.round(wrapTurn(fabric.vertexAround[v]) / TURN_STEP), wale = wales.get(key);
    if (wale === undefined) wales.set(key, [v]);
    else wale.push(v);
  }
  const keys = [...wales.keys()].sort((a, b) => a - b), lengths = new Float64Array(PART_COUNT * keys.length);
  for (const [k, key] of keys.entries()) {
    // Vertices are in the order of knitting; the step into a part counts with it.
    const wale = wales.get(key) ?? [];
    for (let i = 1; i < wale.length; i++) lengths[PART_COUNT * k + partOf(fabric.vertexSection[wale[i]])] += distance(positions, wale[i - 1], wale[i]);
  }
  return { turns: Float64Array.from(keys, (key) => key * TURN_STEP), lengths, isFanToe: hasFanToe(fabric) };
}

/** Length of a part at a place around, between its two wales. A short-row toe runs there and back on the sole's wales: half of that lies over the toes, and as much over the instep's. */
function lengthAt(parts: PartLengths, part: number, turn: number): number {
  if (part !== PART.toe || !parts.isFanToe) return readLength(parts, part, turn);
  return readLength(parts, part, isAtBack(turn) ? turn : acrossSock(turn)) / 2;
}

function readLength({ turns, lengths }: PartLengths, part: number, turn: number): number {
  const count = turns.length, above = turns.findIndex((at) => at >= turn - TURN_STEP / 2), high = above === -1 ? 0 : above, low = (high + count - 1) % count;
  const gap = wrapTurn(turns[high] - turns[low]), share = gap > 0 ? Math.min(1, wrapTurn(turn - turns[low]) / gap) : 1;
  const of = (wale: number): number => lengths[PART_COUNT * wale + part];
  return Math.abs(turns[high] - turn) <= TURN_STEP ? of(high) : (1 - share) * of(low) + share * of(high);
}

/** Means over neighbours, again and again; `weight` is 0 where a value is not known. What is the same everywhere stays. */
function evenOut(fabric: Fabric, values: Float64Array, weight: Float64Array, isJoined: (a: number, b: number) => boolean): Float64Array {
  const edges = fabric.edges.filter((_, i) => isJoined(fabric.edges[i & ~1], fabric.edges[i | 1]));
  let known = weight, products = values.map((value, v) => value * known[v]);
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    const nextKnown = known.slice(), nextProducts = products.slice();
    for (let i = 0; i < edges.length; i += 2) {
      const a = edges[i], b = edges[i + 1];
      nextKnown[a] += known[b]; nextKnown[b] += known[a];
      nextProducts[a] += products[b]; nextProducts[b] += products[a];
    }
    // Only the ratio counts: halving both keeps them small.
    known = nextKnown.map((value) => value / 4);
    products = nextProducts.map((value) => value / 4);
  }
  return products.map((product, v) => (known[v] > 0 ? product / known[v] : 0));
}

function distance(positions: Float64Array, a: number, b: number): number {
  const dx = positions[3 * a] - positions[3 * b], dy = positions[3 * a + 1] - positions[3 * b + 1], dz = positions[3 * a + 2] - positions[3 * b + 2];
  return Math.sqrt(dx * dx + dy * dy + dz * dz);
}
