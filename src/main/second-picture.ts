import type { DifferenceMap } from '../choose/comparison.ts';
import type { ReadLoop } from '../panel/loop-readout.ts';
import { pageWords } from '../words/page-words.ts';
import type { KnittedSock, PosedSock } from '../pipeline/result.ts';
import type { Arrangement, ClothLayer, SockView } from '../view/sock-view-types.ts';
import { type ClothNumbers, mapOf } from './layer-map.ts';
import { aroundOf, clothOf, coloursOf, diametersOf, readingOf } from './picture-cloth.ts';

/** A second sock at rest in the same pose, and what both are called in the picture. */
export interface SecondSock {
  readonly sock: KnittedSock;
  readonly posed: PosedSock;
  readonly difference: DifferenceMap | null;
  readonly label: string;
  readonly firstLabel?: string;
}

/** Keeps a second sock in the picture. */
export interface SecondPicture {
  /** Null takes it away. */
  set(second: SecondSock | null, arrangement: Arrangement): void;
  setLayer(layer: ClothLayer): void;
  readAt(loop: number): ReadLoop | null;
  /** What the first sock is called beside it; null while there is none. */
  firstName(): string | null;
}

function numbersOf({ posed: { stretch, worn }, difference }: SecondSock): ClothNumbers {
  return { stretch, worn, difference };
}

export function createSecondPicture(view: SockView): SecondPicture {
  let second: SecondSock | null = null, arrangement: Arrangement = 'beside', layer: ClothLayer = 'yarn';
  const bring = (): void => {
    if (second === null) { view.setCompanion(null, arrangement); return; }
    const { sock, posed, label, firstLabel } = second, cloth = clothOf(sock, posed), { fabric, grid } = cloth;
    view.setCompanion({
      fabric, grid, yarnColours: coloursOf(sock), diametersMm: diametersOf(sock), positions: posed.pose.positions, pose: posed.pose.name, around: aroundOf(sock, posed),
      map: mapOf(layer, cloth, numbersOf(second)), label, ...(firstLabel === undefined ? {} : { firstLabel }),
    }, arrangement);
  };
  return {
    set: (given, arranged) => {
      if (given === null && second === null) return;
      second = given;
      arrangement = arranged;
      bring();
    },
    setLayer: (chosen) => {
      layer = chosen;
      if (second !== null) bring();
    },
    readAt: (loop) => {
      if (second === null) return null;
      const { fabric, grid } = clothOf(second.sock, second.posed);
      return { grid, reading: readingOf(fabric.loopVertex[loop] ?? -1, numbersOf(second)), name: second.label };
    },
    firstName: () => second && (second.firstLabel ?? pageWords().compare.thisSock),
  };
}
