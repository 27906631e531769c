/** A closed polygon in space: three entries a corner; the last side runs back to the first. */
export type Polygon = Float64Array;

export type Vector = readonly [number, number, number];

const cornerOf = (line: Polygon, i: number): Vector => {
  const at = (3 * i) % line.length;
  return [line[at], line[at + 1], line[at + 2]];
};
export const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
export const times = (a: Vector, share: number): Vector => [share * a[0], share * a[1], share * a[2]];
export const unit = (a: Vector): Vector => {
  const size = Math.sqrt(dot(a, a)) || 1;
  return [a[0] / size, a[1] / size, a[2] / size];
};
const angleOf = (a: Vector, b: Vector): number => Math.asin(Math.max(-1, Math.min(1, dot(a, b))));

/** What two straight sides add to Gauss's double integral: a solid angle over 4 pi. */
function shareOf(a: Vector, b: Vector, c: Vector, d: Vector): number {
  const ac = minus(c, a), ad = minus(d, a), bd = minus(d, b), bc = minus(c, b);
  const n = [cross(ac, ad), cross(ad, bd), cross(bd, bc), cross(bc, ac)].map(unit);
  const solid = angleOf(n[0], n[1]) + angleOf(n[1], n[2]) + angleOf(n[2], n[3]) + angleOf(n[3], n[0]);
  return (solid * Math.sign(dot(cross(minus(d, c), minus(b, a)), ac))) / (4 * Math.PI);
}

/**
 * Gauss's linking integral of two closed polygons, side by side in closed form (Klenin K., Langowski J., Biopolymers 54 (2000) 307-317, method 1a;
 * the integral: Gauss C. F., 1833): a whole number where they do not touch.
 */
export function gaussLinking(one: Polygon, other: Polygon): number {
  let sum = 0;
  for (let i = 0; i < one.length / 3; i++) {
    const a = cornerOf(one, i), b = cornerOf(one, i + 1);
    for (let j = 0; j < other.length / 3; j++) sum += shareOf(a, b, cornerOf(other, j), cornerOf(other, j + 1));
  }
  return sum;
}

/** Any direction from which no corner hides another. */
const EYE = [unit([0.8213, -0.3017, 0.1103]), unit([0.1471, 0.6133, 0.5791])] as const;

/** Half the sum of the signs of the crossings that two closed polygons have in a picture of them (Rolfsen D., Knots and Links, 1976, 5.D). */
export function crossingLinking(one: Polygon, other: Polygon): number {
  const right = EYE[0], eye = unit(cross(right, EYE[1])), up = cross(eye, right);
  const seen = (line: Polygon): Vector[] => Array.from({ length: line.length / 3 + 1 }, (_, i) => {
    const corner = cornerOf(line, i);
    return [dot(corner, right), dot(corner, up), dot(corner, eye)];
  });
  const [p, q] = [seen(one), seen(other)];
  let sum = 0;
  for (let i = 0; i + 1 < p.length; i++) for (let j = 0; j + 1 < q.length; j++) sum += crossingSign(p[i], p[i + 1], q[j], q[j + 1]);
  return sum / 2;
}

function crossingSign(a: Vector, b: Vector, c: Vector, d: Vector): number {
  const rx = b[0] - a[0], ry = b[1] - a[1], sx = d[0] - c[0], sy = d[1] - c[1], area = rx * sy - ry * sx;
  if (area === 0) return 0;
  const t = ((c[0] - a[0]) * sy - (c[1] - a[1]) * sx) / area, s = ((c[0] - a[0]) * ry - (c[1] - a[1]) * rx) / area;
  if (t < 0 || t >= 1 || s < 0 || s >= 1) return 0;
  const isOver = a[2] + t * (b[2] - a[2]) > c[2] + s * (d[2] - c[2]);
  // Turned from over to under counter-clockwise: +1, as a right-handed screw.
  return (isOver ? 1 : -1) * Math.sign(area);
}

/** A way of so many points, closed by a round trip far away: from its end by `after`, one step after another, and so back by `before` to its start. */
export function closeFar(line: Float64Array, after: readonly Vector[], before: readonly Vector[]): Polygon {
  const far = 200, stepsFrom = (corner: Vector, ways: readonly Vector[]): Vector[] => {
    const out: Vector[] = [];
    let at = corner;
    for (const way of ways) {
      at = [at[0] + far * way[0], at[1] + far * way[1], at[2] + far * way[2]];
      out.push(at);
    }
    return out;
  };
  const last = cornerOf(line, line.length / 3 - 1);
  return Float64Array.from([...line, ...[...stepsFrom(last, after), ...stepsFrom(cornerOf(line, 0), before).reverse()].flat()]);
}
