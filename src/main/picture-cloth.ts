import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { LoopReading } from '../panel/loop-readout.ts';
import type { KnittedSock, PosedSock } from '../pipeline/result.ts';
import type { Around } from '../view/sock-view-types.ts';
import { yarnDiameterMm } from '../yarn/yarn-size.ts';
import type { ClothNumbers } from './layer-map.ts';

/** The cloth in the picture: all of a sock, or as much as is knitted on the beds. */
export interface Shown { readonly sock: KnittedSock; readonly fabric: Fabric; readonly grid: StitchGrid }

export function wholeOf(sock: KnittedSock): Shown {
  return { sock, fabric: sock.fabric, grid: sock.grid };
}

/** The part's shape may be an older one's whose yarns were others: its loops are the sock's first ones. */
function partOf(sock: KnittedSock, { fabric, grid }: NonNullable<PosedSock['part']>): Shown {
  return { sock, fabric, grid: { ...grid, yarn: sock.grid.yarn.slice(0, grid.loopCount) } };
}

export function clothOf(sock: KnittedSock, { part }: PosedSock): Shown {
  return part === null ? wholeOf(sock) : partOf(sock, part);
}

export function coloursOf(sock: KnittedSock): string[] { return sock.plan.yarns.map((yarn) => yarn.colour); }

export function diametersOf(sock: KnittedSock): number[] { return sock.plan.yarns.map((yarn) => yarnDiameterMm(yarn.metresPer100g)); }

/** What holds a posed sock. A cast-on that no pass has knitted yet is yarn round the needles. */
export function aroundOf(sock: KnittedSock | null, { part, body }: PosedSock): Around {
  const castOnColour = part?.pass === 0 ? sock?.plan.yarns[sock.grid.yarn[0]]?.colour ?? null : null;
  return { holding: part?.holding ?? null, castOnColour, body };
}

export function readingOf(vertex: number, { stretch, worn, difference }: ClothNumbers): LoopReading | null {
  if (stretch === null || vertex < 0) return null;
  return {
    width: stretch.vertexWidth[vertex], length: stretch.vertexLength[vertex],
    pressureMmHg: worn?.vertexPressureMmHg[vertex] ?? null, gapMm: worn?.vertexGapMm[vertex] ?? null,
    longerMm: difference?.vertexLongerMm[vertex] ?? null, widerMm: difference?.vertexWiderMm[vertex] ?? null,
  };
}
