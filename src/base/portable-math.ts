/**
 * Functions that engines may round as they like, computed here from sums, products, quotients and
 * square roots alone, which IEEE 754 fixes to the bit: the same sock gives the same bytes in every
 * engine. Each is within a few units in the last place of the exact value.
 */

const HALF_PI = Math.PI / 2;
/** pi / 2 in two parts, the first short enough for its small multiples to be exact. */
const HALF_PI_HIGH = 1.5707963267341256, HALF_PI_LOW = 6.077100506506192e-11;
const LN2_HIGH = 0.6931471803691238, LN2_LOW = 1.9082149292705877e-10;
/** Terms of the series: enough for arguments reduced to pi / 4, ln 2 / 2 and so on. */
const TERMS = 12;

/** For angles of some turns, not of thousands. */
export function sin(angle: number): number { return sineOf(angle, 0); }
export function cos(angle: number): number { return sineOf(angle, 1); }

/** Sine of the angle plus `quarters` right angles. */
function sineOf(angle: number, quarters: number): number {
  const n = Math.round(angle / HALF_PI), r = angle - n * HALF_PI_HIGH - n * HALF_PI_LOW;
  const quadrant = (((n + quarters) % 4) + 4) % 4, size = quadrant % 2 === 0 ? oddSeries(r) : evenSeries(r);
  return quadrant < 2 ? size : -size;
}

function oddSeries(r: number): number {
  let sum = 1;
  for (let k = TERMS; k >= 1; k--) sum = 1 - sum * r * r / (2 * k * (2 * k + 1));
  return r * sum;
}

function evenSeries(r: number): number {
  let sum = 1;
  for (let k = TERMS; k >= 1; k--) sum = 1 - sum * r * r / (2 * k * (2 * k - 1));
  return sum;
}

/** Angle of the direction (x, y), in (-pi, pi]; 0 for no direction. */
export function atan2(y: number, x: number): number {
  const size = Math.sqrt(x * x + y * y);
  if (size === 0) return 0;
  const angle = x < 0 ? Math.PI - quarterTangent(Math.abs(y), -x, size) : quarterTangent(Math.abs(y), x, size);
  return y < 0 ? -angle : angle;
}

export function asin(sine: number): number { return atan2(sine, Math.sqrt(Math.max(0, (1 - sine) * (1 + sine)))); }

/** Angle in [0, pi / 2] with y, x >= 0: halved three times, then by its series. */
function quarterTangent(y: number, x: number, size: number): number {
  let t = y / (size + x);
  for (let k = 0; k < 2; k++) t /= 1 + Math.sqrt(1 + t * t);
  let sum = 0;
  for (let k = TERMS; k >= 0; k--) sum = 1 / (2 * k + 1) - t * t * sum;
  return 8 * t * sum;
}

/** e to the power; 0 below -700. */
export function exp(power: number): number {
  if (power < -700) return 0;
  const n = Math.round(power / (LN2_HIGH + LN2_LOW)), r = power - n * LN2_HIGH - n * LN2_LOW;
  let sum = 1;
  for (let k = TERMS + 2; k >= 1; k--) sum = 1 + sum * r / k;
  for (let k = 0; k < Math.abs(n); k++) sum *= n > 0 ? 2 : 0.5;
  return sum;
}

/** Natural logarithm of a positive number. */
export function log(value: number): number {
  let m = value, n = 0;
  while (m > Math.SQRT2) { m /= 2; n++; }
  while (m < Math.SQRT1_2) { m *= 2; n--; }
  const t = (m - 1) / (m + 1);
  let sum = 0;
  for (let k = TERMS; k >= 0; k--) sum = 1 / (2 * k + 1) + t * t * sum;
  return n * LN2_LOW + 2 * t * sum + n * LN2_HIGH;
}
