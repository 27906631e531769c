import { NEEDLE } from '../../src/machine/codes.ts';
import type { Trace } from '../../src/machine/trace.ts';
import type { SectionName } from '../../src/plan/step.ts';

const MARK = { [NEEDLE.empty]: ' ', [NEEDLE.working]: '|', [NEEDLE.held]: 'o' };

/** One line a pass: number, carriage's way, and a bed's needles (| works, o held), empty bed ends cut off. */
export function drawPasses(trace: Trace, bed: 0 | 1, sections: readonly SectionName[]): string {
  return trace.passes.filter((p) => sections.includes(p.section)).map((p) => {
    const start = (2 * p.pass + bed) * trace.needlesPerBed;
    const needles = [...trace.needleStates.subarray(start, start + trace.needlesPerBed)].map((s) => MARK[s as 0 | 1 | 2]).join('');
    return `${String(p.pass).padStart(4)} ${p.from === 'left' ? '>' : '<'} ${needles.trim()} ${p.knitted}`;
  }).join('\n');
}
