import type { Fabric } from '../fabric/fabric.ts';
import { SECTION } from '../machine/codes.ts';
import { isFanToeSection } from '../shape/sock-profile.ts';
import { acrossSock, hasFanToe, isAtBack, wrapTurn } from './sock-parts.ts';

/** Rows that a toe without rounds is spread over: any number, as only shares of them count. */
const SPREAD_ROWS = 100;

/**
 * A sock's fabric with its toe's coordinates as if it were of the other sock's kind, so that places of
 * the one can be found in the other. A decreased toe runs along sole and instep to its tip; a
 * short-row toe along the sole to its short base, and back over the instep to where it is joined.
 */
export function alignToes(fabric: Fabric, other: Fabric): Fabric {
  if (hasFanToe(fabric) === hasFanToe(other)) return fabric;
  const aligned = {
    ...fabric, vertexSection: fabric.vertexSection.slice(), vertexAround: fabric.vertexAround.slice(),
    vertexRow: fabric.vertexRow.slice(), vertexFan: fabric.vertexFan.slice(),
  };
  const toe = Array.from({ length: fabric.vertexCount }, (_, v) => v).filter((v) => fabric.vertexSection[v] === SECTION.toe || isFanToeSection(fabric.vertexSection[v]));
  if (hasFanToe(fabric)) unrollFan(toe, aligned);
  else rollUp(toe, aligned);
  return aligned;
}

function unrollFan(toe: readonly number[], { vertexSection, vertexAround, vertexRow, vertexFan }: Fabric): void {
  for (const v of toe) {
    const fan = vertexFan[v], isBelow = fan <= 0.5;
    vertexSection[v] = SECTION.toe;
    if (!isBelow) vertexAround[v] = acrossSock(wrapTurn(vertexAround[v]));
    vertexRow[v] = vertexRow[toe[0]] + (SPREAD_ROWS - 1) * 2 * (isBelow ? fan : 1 - fan);
    vertexFan[v] = 1;
  }
}

function rollUp(toe: readonly number[], { vertexSection, vertexAround, vertexRow, vertexFan }: Fabric): void {
  const rows = toe.map((v) => vertexRow[v]), least = rows.reduce((a, b) => Math.min(a, b), Infinity), most = rows.reduce((a, b) => Math.max(a, b), -Infinity);
  for (const [i, v] of toe.entries()) {
    const turn = wrapTurn(vertexAround[v]), half = (rows[i] - least + 0.5) / (most - least + 1) / 2;
    vertexSection[v] = isAtBack(turn) ? SECTION['toe-in'] : SECTION['toe-out'];
    vertexFan[v] = isAtBack(turn) ? half : 1 - half;
    if (!isAtBack(turn)) vertexAround[v] = acrossSock(turn);
  }
}
