import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Plan } from '../plan/plan-types.ts';
import { pieceLengths } from '../yarn/measure-along.ts';
import { PART, type YarnLay } from '../yarn/yarn-lay.ts';
import { createParts, TAIL_MM, useOf, type YarnParts, type YarnUse } from './estimate-yarn.ts';

/** What a sock takes of a yarn, measured along the yarn's centre line as it lies in a shape. */
export interface LaidYarn extends YarnUse {
  /** Unbroken lengths of it. */
  readonly lengths: number;
  readonly parts: YarnParts;
}

/** What a piece of yarn counts as; a tail is not measured, for it is cut longer than it is drawn. */
function partOf(part: number, kind: number): Exclude<keyof YarnParts, 'tails'> | null {
  switch (part) {
    case PART.loop: return kind === LOOP.castOn ? 'castOn' : 'loops';
    case PART.wrap: return 'wraps';
    case PART.seam: return 'seam';
    case PART.graft: case PART.bindOff: return 'closing';
    default: return null;
  }
}

/**
 * Metres and grams of each of the plan's yarns, in its order, along the centre lines of a finished piece: every piece from where it begins
 * to where the next one does, and at both ends of each length a tail as it is cut. Of a length that sews a seam all is its own yarn's.
 */
export function measureYarn(plan: Plan, grid: StitchGrid, lay: Pick<YarnLay, 'thread' | 'points'>): LaidYarn[] {
  const { lengthStart, part, loop } = lay.thread, millimetres = pieceLengths(lay);
  const yarns = plan.yarns.map(() => ({ parts: createParts(), lengths: 0 }));
  for (let k = 0; k + 1 < lengthStart.length; k++) {
    const first = lengthStart[k], yarn = yarns[grid.yarn[loop[first]]];
    yarn.lengths++;
    yarn.parts.tails += (2 * TAIL_MM) / 1000;
    for (let piece = first; piece < lengthStart[k + 1]; piece++) {
      const name = partOf(part[piece], grid.kind[loop[piece]]);
      if (name !== null) yarn.parts[name] += millimetres[piece] / 1000;
    }
  }
  return yarns.map(({ parts, lengths }, at) => ({ ...useOf(plan.yarns[at], parts), lengths, parts }));
}
