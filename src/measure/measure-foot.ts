import type { Fabric, MarkPath } from '../fabric/fabric.ts';
import { SECTION } from '../machine/codes.ts';
import { measureLevel, traceLevel } from './level-lines.ts';
import { lineCentre, lineLength, placePath } from './polyline.ts';
import { buildSurface, spreadField } from './surface.ts';

/** Direction of a tube: from the middles of its first third of rounds to those of its last; null without two rounds. */
export function findAxis(rounds: readonly MarkPath[], positions: Float64Array): Float64Array | null {
  const third = Math.max(1, Math.floor(rounds.length / 3));
  if (rounds.length < 2) return null;
  const first = meanCentre(rounds.slice(0, third), positions);
  const last = meanCentre(rounds.slice(-third), positions);
  const axis = Float64Array.from(last, (value, d) => value - first[d]);
  const length = Math.sqrt(axis[0] ** 2 + axis[1] ** 2 + axis[2] ** 2);
  return length > 0 ? axis.map((value) => value / length) : null;
}

function meanCentre(rounds: readonly MarkPath[], positions: Float64Array): Float64Array {
  const mean = new Float64Array(3);
  for (const round of rounds) {
    const centre = lineCentre(placePath(round, positions));
    for (let d = 0; d < 3; d++) mean[d] += centre[d] / rounds.length;
  }
  return mean;
}

/**
 * Girth of the foot: mean length of the level lines of a field that climbs steadily along the
 * yarn's helix by one a round (a loop's number in the order of knitting over the stitches of a
 * round), through the middle third of the foot's rounds. Such a line closes without the step that
 * a round along the yarn makes where it ends.
 */
export function measureFootGirth(fabric: Fabric, rounds: readonly MarkPath[], positions: Float64Array): { girthMm: number; line: Float64Array } | null {
  if (rounds.length === 0) return null;
  const stitches = rounds[0].a.length;
  const { vertexSection, cellStart, cellVertices } = fabric;
  const climb = new Float64Array(fabric.vertexCount).fill(NaN);
  const foot: number[] = [];
  for (let v = 0; v < fabric.vertexCount; v++) if (vertexSection[v] === SECTION.foot) foot.push(v);
  foot.sort((v, w) => fabric.vertexLoop[v] - fabric.vertexLoop[w]);
  foot.forEach((v, i) => { climb[v] = i / stitches; });

  const total = foot.length / stitches;
  const low = total / 3;
  const high = (2 * total) / 3;
  const cells: number[] = [];
  for (let cell = 0; cell + 1 < cellStart.length; cell++) {
    let least = Infinity;
    let most = -Infinity;
    for (let i = cellStart[cell]; i < cellStart[cell + 1]; i++) {
      least = Math.min(least, climb[cellVertices[i]]);
      most = Math.max(most, climb[cellVertices[i]]);
    }
    if (least <= high && most >= low) cells.push(cell);
  }
  if (cells.length === 0) return null;
  const surface = buildSurface(fabric, positions, Int32Array.from(cells));
  const field = spreadField(surface, climb);
  const levels = Math.max(1, Math.round(high - low));
  let girthMm = 0;
  for (let i = 0; i < levels; i++) girthMm += measureLevel(surface, field, low + ((i + 0.5) / levels) * (high - low)) / levels;
  const lines = traceLevel(surface, field, (low + high) / 2).filter((line) => line.isClosed);
  const longest = lines.map((line) => line.points).sort((a, b) => lineLength(b) - lineLength(a)).at(0);
  return longest === undefined ? null : { girthMm, line: longest };
}
