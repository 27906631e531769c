import { findLoopLength } from './loop-length.ts';
import { spanLength } from './measure-along.ts';
import { weightsInto } from './spline.ts';
import { PIECE_POINTS, POINT_STRIDE } from './yarn-lay.ts';

/** A plain loop among its like, knit side to the eye. */
export interface LoopShape {
  /**
   * Three entries a control point, from the middle of the yarn on its left to that on its right: mm to the right of its
   * wale, rows up from where it was drawn through, thicknesses of yarn towards the eye.
   */
  readonly points: Float64Array;
  /** Length (mm) that Munden's relation asks for, and that the shape has. */
  readonly targetMm: number;
  readonly lengthMm: number;
}

/** Size at rest of a stitch, and thickness of its yarn, mm. */
export interface LoopSize { readonly courseMm: number; readonly waleMm: number; readonly diameterMm: number }

/**
 * A loop is its own image in its wale, and its head is its foot's image in the middle of a leg (what hangs below a course looks from behind
 * as what stands above it from the front): so three of twelve control points are free, nine numbers, in stitches, rows and thicknesses.
 */
const FREE = 9;

/** From here the search begins: its own answer at 30 x 42 in 10 cm with a yarn of 0.91 mm. */
const START = [0.18, 1.38, -0.75, 0.41, 1.15, -0.04, 0.353, 0.733, 0.8] as const;

/** Points of the line that are looked at, a span; steps of the search; and weights of its aims, against a bend of the line of one row: chosen by eye. */
const STEPS = 4, ROUNDS = 24, LENGTH_WEIGHT = 20, TOUCH_WEIGHT = 30, BEND_WEIGHT = 0.5;

/** Where the loops stand that this one could touch: stitches to the right, rows up. */
const NEIGHBOURS = [[0, 1], [0, -1], [1, 1], [-1, 1], [1, -1], [-1, -1], [0, 2], [0, -2]] as const;

const SAMPLES = PIECE_POINTS * STEPS + 1, HALF = SAMPLES >> 1;
const WEIGHTS = Array.from({ length: STEPS }, (_, i) => {
  const weights = new Float64Array(4);
  weightsInto(weights, i / STEPS);
  return weights;
});

/** All control points of the loop with these free numbers, mm, three entries each. */
function unfoldInto(out: Float64Array, q: Float64Array, { courseMm, waleMm, diameterMm }: LoopSize): void {
  for (let k = 0; k < 6; k++) {
    const from = 3 * (k < 3 ? k : 5 - k), x = k < 3 ? q[from] : 0.5 - q[from], y = k < 3 ? q[from + 1] : 1 - q[from + 1];
    for (const [point, side] of [[6 + k, 1], [5 - k, -1]] as const) {
      out[3 * point] = side * x * courseMm;
      out[3 * point + 1] = y * waleMm;
      out[3 * point + 2] = q[from + 2] * diameterMm;
    }
  }
}

/** The line itself: `SAMPLES` points from the middle before the loop to the middle after it. */
function drawInto(out: Float64Array, points: Float64Array, courseMm: number): void {
  for (let i = 0; i < SAMPLES; i++) {
    const first = Math.floor(i / STEPS) - 2, weights = WEIGHTS[i % STEPS];
    for (let d = 0; d < 3; d++) {
      let sum = 0;
      for (let k = 0; k < 4; k++) {
        const at = first + k, wrapped = at < 0 ? at + PIECE_POINTS : at >= PIECE_POINTS ? at - PIECE_POINTS : at;
        const shift = d > 0 || at === wrapped ? 0 : at < 0 ? -courseMm : courseMm;
        sum += weights[k] * (points[3 * wrapped + d] + shift);
      }
      out[3 * i + d] = sum;
    }
  }
}

function lengthOf(line: Float64Array): number {
  let sum = 0;
  for (let i = 3; i < line.length; i += 3) sum += Math.sqrt((line[i] - line[i - 3]) ** 2 + (line[i + 1] - line[i - 2]) ** 2 + (line[i + 2] - line[i - 1]) ** 2);
  return sum;
}

/** Least distance, squared, of a point from a line that stands (dx, dy) further on. */
function nearestSquare(line: Float64Array, i: number, dx: number, dy: number): number {
  const x = line[3 * i] - dx, y = line[3 * i + 1] - dy, z = line[3 * i + 2];
  let least = Infinity;
  for (let j = 0; j < line.length; j += 3) {
    const square = (line[j] - x) ** 2 + (line[j + 1] - y) ** 2 + (line[j + 2] - z) ** 2;
    if (square < least) least = square;
  }
  return least;
}

/** What the search makes small: length missed, bends of the line, and how deep it would lie in its neighbours; lengths over a row. */
class LoopAims {
  readonly count = 1 + 3 * PIECE_POINTS + (HALF + 1) * NEIGHBOURS.length;
  private readonly points = new Float64Array(3 * PIECE_POINTS);
  private readonly line = new Float64Array(3 * SAMPLES);
  private readonly size: LoopSize;
  private readonly targetMm: number;

  constructor(size: LoopSize, targetMm: number) {
    this.size = size;
    this.targetMm = targetMm;
  }

  into(out: Float64Array, q: Float64Array): void {
    const { points, line, size: { courseMm, waleMm, diameterMm } } = this;
    unfoldInto(points, q, this.size);
    drawInto(line, points, courseMm);
    let n = 0;
    out[n++] = (LENGTH_WEIGHT * (lengthOf(line) - this.targetMm)) / waleMm;
    for (let k = 0; k < PIECE_POINTS; k++) {
      const before = (k + PIECE_POINTS - 1) % PIECE_POINTS, after = (k + 1) % PIECE_POINTS;
      for (let d = 0; d < 3; d++) {
        const shift = d > 0 ? 0 : k === 0 ? -courseMm : k === PIECE_POINTS - 1 ? courseMm : 0;
        out[n++] = (BEND_WEIGHT * (points[3 * before + d] + points[3 * after + d] + shift - 2 * points[3 * k + d])) / waleMm;
      }
    }
    const share = TOUCH_WEIGHT / Math.sqrt(STEPS) / waleMm;
    for (const [dx, dy] of NEIGHBOURS) {
      for (let i = HALF; i < SAMPLES; i++) {
        const square = nearestSquare(line, i, dx * courseMm, dy * waleMm);
        out[n++] = square < diameterMm * diameterMm ? share * (diameterMm - Math.sqrt(square)) : 0;
      }
    }
  }

  shape(q: Float64Array): LoopShape {
    const { points, line, size: { courseMm, waleMm, diameterMm } } = this;
    unfoldInto(points, q, this.size);
    drawInto(line, points, courseMm);
    return { points: points.map((value, i) => (i % 3 === 0 ? value : i % 3 === 1 ? value / waleMm : value / diameterMm)), targetMm: this.targetMm, lengthMm: measuredLength(points, courseMm) };
  }
}

/** Length of a loop between its like, from its control points in mm. */
function measuredLength(points: Float64Array, courseMm: number): number {
  const line = new Float64Array(POINT_STRIDE * (PIECE_POINTS + 3));
  for (let k = 0; k < PIECE_POINTS + 3; k++) {
    line.set(points.subarray(3 * (k % PIECE_POINTS), 3 * (k % PIECE_POINTS) + 3), POINT_STRIDE * k);
    if (k >= PIECE_POINTS) line[POINT_STRIDE * k] += courseMm;
  }
  let sum = 0;
  for (let span = 0; span < PIECE_POINTS; span++) sum += spanLength(line, span, PIECE_POINTS + 2);
  return sum;
}

const squareSum = (values: Float64Array): number => values.reduce((sum, value) => sum + value * value, 0);

/** Solves a symmetric positive system in place (Cholesky), the answer in `b`. */
function solveInto(a: Float64Array, b: Float64Array, n: number): void {
  for (let j = 0; j < n; j++) {
    for (let i = j; i < n; i++) {
      let sum = a[i * n + j];
      for (let k = 0; k < j; k++) sum -= a[i * n + k] * a[j * n + k];
      a[i * n + j] = i === j ? Math.sqrt(sum) : sum / a[j * n + j];
    }
  }
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) b[i] -= a[i * n + k] * b[k];
    b[i] /= a[i * n + i];
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) b[i] -= a[k * n + i] * b[k];
    b[i] /= a[i * n + i];
  }
}

/** Lower half of the slopes' product with themselves, and the step's right side. */
function normaliseInto(system: Float64Array, step: Float64Array, slopes: Float64Array, residuals: Float64Array): void {
  system.fill(0);
  step.fill(0);
  for (let at = 0, i = 0; i < residuals.length; i++, at += FREE) {
    for (let j = 0; j < FREE; j++) {
      step[j] -= slopes[at + j] * residuals[i];
      for (let k = 0; k <= j; k++) system[j * FREE + k] += slopes[at + j] * slopes[at + k];
    }
  }
}

/**
 * The shape of a plain loop: as long as Munden's relation says, bent as little as may be, and no deeper in its neighbours than
 * that leaves room for (a thick yarn in a small stitch does lie in them). Levenberg and Marquardt's method on nine numbers
 * (Marquardt D. W., J. SIAM 11 (1963) 431-441); the slopes by differences.
 */
export function shapeLoop(size: LoopSize): LoopShape {
  const aims = new LoopAims(size, findLoopLength(10 / size.courseMm, 10 / size.waleMm)), m = aims.count;
  const q = Float64Array.from(START), trial = new Float64Array(FREE), now = new Float64Array(m), then = new Float64Array(m);
  const slopes = new Float64Array(m * FREE), system = new Float64Array(FREE * FREE), step = new Float64Array(FREE);
  let damping = 1e-2;
  aims.into(now, q);
  for (let round = 0; round < ROUNDS; round++) {
    for (let j = 0; j < FREE; j++) {
      trial.set(q);
      trial[j] += 1e-5;
      aims.into(then, trial);
      for (let i = 0; i < m; i++) slopes[i * FREE + j] = (then[i] - now[i]) / 1e-5;
    }
    normaliseInto(system, step, slopes, now);
    for (let j = 0; j < FREE; j++) system[j * FREE + j] *= 1 + damping;
    solveInto(system, step, FREE);
    for (let j = 0; j < FREE; j++) trial[j] = q[j] + step[j];
    aims.into(then, trial);
    if (squareSum(then) < squareSum(now)) {
      q.set(trial);
      now.set(then);
      damping = Math.max(1e-6, damping / 4);
    } else damping *= 6;
  }
  return aims.shape(q);
}
