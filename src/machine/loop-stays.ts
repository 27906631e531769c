import type { NeedleRef, Program, Step } from '../plan/step.ts';
import { BED } from './codes.ts';
import type { StitchGrid } from './grid.ts';
import type { Trace } from './trace.ts';

/**
 * Where every loop hangs while it is on the machine: loop i from pass `pass[k]` on at needle
 * (`bed[k]`, `needle[k]`), for k in `start[i]` .. `start[i + 1]`, until after pass `goneAt[i]` it is on none.
 * What is moved after a pass and its wraps counts to the next one, as in `gridAtPass`; wraps have no stays.
 */
export interface LoopStays {
  readonly start: Int32Array;
  readonly pass: Int32Array;
  /** BED code. */
  readonly bed: Uint8Array;
  readonly needle: Int16Array;
  /** One past the last pass for loops that are joined, bound off or still live at the end. */
  readonly goneAt: Int32Array;
}

interface Stay { readonly pass: number; readonly at: NeedleRef }

/** Follows a knitted program's transfers. */
export function findLoopStays({ steps }: Program, grid: StitchGrid, trace: Trace): LoopStays {
  const lastPass = trace.passes.length - 1, goneAt = new Int32Array(grid.loopCount).fill(lastPass + 1);
  const stays: Stay[][] = Array.from({ length: grid.loopCount }, () => []);
  const hanging = new Map<string, number[]>();
  const form = (pass: number): void => {
    const { firstLoop, endLoop } = trace.passes[pass];
    for (let loop = firstLoop; loop < endLoop; loop++) {
      const at: NeedleRef = { bed: grid.bed[loop] === BED.front ? 'front' : 'back', needle: grid.needle[loop] };
      for (const old of hanging.get(keyOf(at)) ?? []) goneAt[old] = pass;
      hanging.set(keyOf(at), [loop]);
      stays[loop].push({ pass, at });
    }
  };
  let pass = -1;
  for (const step of steps) {
    if (step.do === 'cast-on' || step.do === 'knit') form(++pass);
    else if (step.do === 'transfer' && pass < lastPass) move(step, pass + 1);
  }
  return flatten(stays, goneAt);

  function move({ moves }: Extract<Step, { do: 'transfer' }>, from: number): void {
    for (const { from: source, to } of moves) {
      const loops = hanging.get(keyOf(source)) ?? [];
      hanging.delete(keyOf(source));
      hanging.set(keyOf(to), [...hanging.get(keyOf(to)) ?? [], ...loops]);
      for (const loop of loops) stays[loop].push({ pass: from, at: to });
    }
  }
}

function keyOf({ bed, needle }: NeedleRef): string { return `${bed} ${needle}`; }

/** Of several moves after one pass the last counts. */
function flatten(stays: readonly (readonly Stay[])[], goneAt: Int32Array): LoopStays {
  const kept = stays.map((own) => own.filter((stay, k) => own[k + 1]?.pass !== stay.pass)), all = kept.flat();
  const start = new Int32Array(stays.length + 1);
  kept.forEach((own, loop) => { start[loop + 1] = start[loop] + own.length; });
  return {
    start, goneAt, pass: Int32Array.from(all, (stay) => stay.pass),
    bed: Uint8Array.from(all, (stay) => BED[stay.at.bed]), needle: Int16Array.from(all, (stay) => stay.at.needle),
  };
}
