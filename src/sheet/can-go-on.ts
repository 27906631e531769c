import type { Program, Step } from '../plan/step.ts';

/** Where two programs part: at this stop of the work, the cast-on being 0; null: the machine itself is another. */
export interface Parting { readonly stop: number | null }

/** Steps that are done when `stop` comes next: the passes before it with the wraps after them. All of them beyond the closing. */
function countDone({ steps }: Program, stop: number): number {
  let passes = 0;
  for (let i = 0; i < steps.length; i++) {
    const isNext = steps[i].do === 'knit' || steps[i].do === 'cast-on';
    if (isNext && passes === stop) return lastWrapBefore(steps, i);
    if (isNext) passes++;
  }
  return passes >= stop ? lastWrapBefore(steps, steps.length) : steps.length;
}

/** One past the pass, with its wraps, that comes before step `end`: what the hands do after that belongs to the next stop. */
function lastWrapBefore(steps: readonly Step[], end: number): number {
  let at = end;
  while (at > 0 && steps[at - 1].do !== 'knit' && steps[at - 1].do !== 'cast-on' && steps[at - 1].do !== 'wrap') at--;
  return at;
}

/** What is done at the machine; which part of the sock it is called makes no difference to the knitting. */
function handWork(step: Step): string {
  return JSON.stringify(step.do === 'knit' || step.do === 'cast-on' ? { ...step, section: null } : step.do === 'transfer' ? { ...step, why: null } : step);
}

/**
 * Whether a piece whose stops before `item` are knitted by the old program can be finished by the new one:
 * null if the two agree on everything done so far, step for step; else the first stop where they part.
 */
export function canGoOn(oldProgram: Program, newProgram: Program, item: number): Parting | null {
  if (item === 0) return null;
  if (oldProgram.needlesPerBed !== newProgram.needlesPerBed) return { stop: null };
  const done = countDone(oldProgram, item);
  let stop = -1;
  for (let i = 0; i < done; i++) {
    const was = oldProgram.steps[i], is = newProgram.steps[i];
    // Hand work before a pass belongs to the stop that it leads to.
    const isPass = was.do === 'knit' || was.do === 'cast-on';
    if (isPass) stop++;
    if (is === undefined || handWork(was) !== handWork(is)) return { stop: isPass || was.do === 'wrap' ? stop : stop + 1 };
  }
  // The old piece may be done where the new one goes on wrapping the pass last knitted.
  const next = newProgram.steps[done];
  return next?.do === 'wrap' ? { stop } : null;
}
