import { NEEDLE } from '../../src/machine/codes.ts';
import type { Trace } from '../../src/machine/trace.ts';
import type { SectionName } from '../../src/plan/step.ts';

const MARK = { [NEEDLE.empty]: ' ', [NEEDLE.working]: '|', [NEEDLE.held]: 'o' };

/** One line a pass: number, carriage's way, and the needles of the back bed over those of the front, as far as either carries loops in any of them. */
export function drawBeds(trace: Trace, passes: readonly number[]): string {
  const bedOf = (pass: number, bed: 0 | 1): string => {
    const start = (2 * pass + bed) * trace.needlesPerBed;
    return [...trace.needleStates.subarray(start, start + trace.needlesPerBed)].map((s) => MARK[s as 0 | 1 | 2]).join('');
  };
  const rows = passes.flatMap((pass) => [bedOf(pass, 1), bedOf(pass, 0)]);
  const first = Math.min(...rows.map((row) => row.search(/\S/))), last = Math.max(...rows.map((row) => row.trimEnd().length));
  return passes.map((pass) => {
    const { from, knitted } = trace.passes[pass];
    return `${String(pass).padStart(4)} ${from === 'left' ? '>' : '<'} ${bedOf(pass, 1).slice(first, last)}\n       ${bedOf(pass, 0).slice(first, last)} ${knitted}`.replace(/ +$/gm, '');
  }).join('\n');
}

/** One line a pass: number, carriage's way, and a bed's needles (| works, o held), empty bed ends cut off. */
export function drawPasses(trace: Trace, bed: 0 | 1, sections: readonly SectionName[]): string {
  return trace.passes.filter((p) => sections.includes(p.section)).map((p) => {
    const start = (2 * p.pass + bed) * trace.needlesPerBed;
    const needles = [...trace.needleStates.subarray(start, start + trace.needlesPerBed)].map((s) => MARK[s as 0 | 1 | 2]).join('');
    return `${String(p.pass).padStart(4)} ${p.from === 'left' ? '>' : '<'} ${needles.trim()} ${p.knitted}`;
  }).join('\n');
}
