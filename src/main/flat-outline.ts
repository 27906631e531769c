import type { Fabric, MarkPath } from '../fabric/fabric.ts';
import type { SockOutline } from '../panel/sock-outline.ts';

/**
 * The outline of a sock laid flat, whose centre front and centre back lie on the fold: down the one
 * and up the other. Heel and toe are marked by the lines that a knitter sees there.
 */
export function drawFlatOutline({ marks }: Fabric, positions: Float64Array): SockOutline | null {
  if (marks === null) return null;
  const place = (path: MarkPath): number[] => placeInPlane(path, positions);
  const back = place(marks.centreBack), upwards: number[] = [];
  for (let i = back.length - 2; i >= 0; i -= 2) upwards.push(back[i], back[i + 1]);
  const lastRound = marks.footRounds.at(-1);
  return {
    edge: [...place(marks.centreFront), ...upwards],
    lines: [place(marks.mitreLeft), ...(lastRound === undefined ? [] : [place(lastRound)])],
  };
}

/** Across and downwards, mm: the sock lies on its side, x along the foot and z up the leg. */
function placeInPlane({ a, b, t }: MarkPath, positions: Float64Array): number[] {
  const points: number[] = [];
  for (let i = 0; i < t.length; i++) {
    const at = (axis: number): number => (1 - t[i]) * positions[3 * a[i] + axis] + t[i] * positions[3 * b[i] + axis];
    points.push(at(0), -at(2));
  }
  return points;
}
