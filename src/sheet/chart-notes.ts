import { BED, LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Trace } from '../machine/trace.ts';
import type { NeedleRef, Program, Step } from '../plan/step.ts';

export type MoveReason = Extract<Step, { do: 'transfer' }>['why'];

/** What the hands did to loops while they hung on their needles. */
export interface LoopNotes {
  /** By loop, the pass before which its needle went into hold with it; 0 for none. */
  readonly heldBefore: Int32Array;
  /** One entry for each needle emptied onto another, with the lowest-numbered loop that it carried. */
  readonly moves: readonly { readonly loop: number; readonly why: MoveReason }[];
  /** Wraps laid round a needle of the bed that rested. */
  readonly cornerWraps: ReadonlySet<number>;
}

/** Goes through the program with nothing but a list of which loops hang on which needle. */
export function noteLoops({ steps, needlesPerBed }: Program, { passes }: Trace, grid: StitchGrid): LoopNotes {
  const on = new Map<number, number[]>(), heldBefore = new Int32Array(grid.loopCount), cornerWraps = new Set<number>();
  const moves: { loop: number; why: MoveReason }[] = [];
  const keyOf = ({ bed, needle }: NeedleRef): number => BED[bed] * needlesPerBed + needle - 1;
  const move = (from: number, to: number): readonly number[] => {
    const loops = on.get(from) ?? [];
    on.delete(from);
    on.set(to, [...(on.get(to) ?? []), ...loops]);
    return loops;
  };
  let nextPass = 0, wrapsAfter = 0;
  for (const step of steps) {
    switch (step.do) {
      case 'cast-on': case 'knit': {
        const { firstLoop, knitted } = passes[nextPass];
        for (let loop = firstLoop; loop < firstLoop + knitted; loop++) on.set(grid.bed[loop] * needlesPerBed + grid.needle[loop] - 1, [loop]);
        nextPass++;
        wrapsAfter = 0;
        break;
      }
      case 'hold':
        for (const loop of on.get(keyOf(step.at)) ?? []) heldBefore[loop] = nextPass;
        break;
      case 'wrap': {
        const record = passes[nextPass - 1], wrap = record.firstLoop + record.knitted + wrapsAfter++;
        if (grid.kind[wrap] !== LOOP.wrap) throw new Error(`chart-notes: loop ${wrap} after pass ${record.pass} is no wrap`);
        if (BED[step.at.bed] !== grid.bed[record.firstLoop]) cornerWraps.add(wrap);
        break;
      }
      case 'transfer':
        for (const { from, to } of step.moves) moves.push({ loop: Math.min(...move(keyOf(from), keyOf(to))), why: step.why });
        break;
      default:
    }
  }
  return { heldBefore, moves, cornerWraps };
}
