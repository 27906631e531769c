import { asin, cos, sin } from '../base/portable-math.ts';

const HALVINGS = 60;

/** Half the angle that a chord spans on a circle. */
const halfAngle = (side: number, radius: number): number => asin(Math.min(1, side / (2 * radius)));

/**
 * The polygon with these sides, in order counter-clockwise, whose corners lie on one circle: of all
 * polygons with those sides the one of greatest area (Cramer's theorem, from memory). Returns the
 * side vectors. Throws if one side is longer than all others together.
 */
export function layRingPolygon(sides: readonly number[]): [number, number][] {
  const longest = Math.max(...sides);
  const total = sides.reduce((sum, s) => sum + s, 0);
  if (longest >= total - longest) throw new RangeError(`ring-polygon: side ${longest} cannot be closed by the others`);
  const longestAt = sides.indexOf(longest);
  const othersAt = (r: number): number => sides.reduce((sum, s, i) => (i === longestAt ? sum : sum + halfAngle(s, r)), 0);
  // With the centre inside, all half angles add up to pi; else the others' add up to the longest side's.
  const isCentreInside = othersAt(longest / 2) + Math.PI / 2 >= Math.PI;
  const excess = (r: number): number => (isCentreInside ? othersAt(r) + halfAngle(longest, r) - Math.PI : halfAngle(longest, r) - othersAt(r));
  let [low, high] = [longest / 2, longest / 2];
  do high *= 2; while (excess(high) > 0 && high < total * 1e6);
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  const radius = (low + high) / 2;
  const turns = sides.map((s, i) => {
    const turn = 2 * halfAngle(s, radius);
    // Seen from a centre outside, the longest side spans the far way round.
    return !isCentreInside && i === longestAt ? 2 * Math.PI - turn : turn;
  });
  // The first side runs to the right.
  let heading = -(turns[0]) / 2;
  return sides.map((side, i): [number, number] => {
    const direction = heading + (turns[i]) / 2;
    heading += turns[i];
    return [side * cos(direction), side * sin(direction)];
  });
}
