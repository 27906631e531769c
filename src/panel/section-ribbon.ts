import type { Trace } from '../machine/trace.ts';
import type { PlannedYarn } from '../plan/plan-types.ts';
import { pageWords } from '../words/page-words.ts';
import { el } from './dom.ts';
import type { SectionMark } from './section-marks.ts';

/** All stops in order in the colour of their yarn, one piece a part of the work with its name over it; a stop is as wide as any other. */
export function drawSectionRibbon(marks: readonly SectionMark[], trace: Trace, yarns: readonly PlannedYarn[]): HTMLElement[] {
  const { parts } = pageWords().timeline;
  return marks.map(({ part, stop, end }) => {
    const piece = el('span', { class: 'way-piece', 'data-part': part }, el('span', { class: 'way-name' }, parts[part]), el('span', { class: 'way-yarns' }, ...yarnRuns(trace, stop, end).map(({ yarn, stops }) => {
      const run = el('i');
      run.style.flexGrow = String(stops);
      run.style.background = yarns[yarn]?.colour ?? 'currentColor';
      return run;
    })));
    piece.style.flexGrow = String(end - stop + 1);
    return piece;
  });
}

function yarnRuns({ passes }: Trace, stop: number, end: number): { yarn: number; stops: number }[] {
  const runs: { yarn: number; stops: number }[] = [];
  for (let at = stop; at <= end; at++) {
    const { yarn } = passes[Math.min(at, passes.length - 1)], run = runs.at(-1);
    if (run?.yarn === yarn) run.stops++;
    else runs.push({ yarn, stops: 1 });
  }
  return runs;
}
