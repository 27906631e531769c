import { BED, NEEDLE } from '../machine/codes.ts';
import type { Bed } from '../plan/sock-file.ts';
import type { SheetContext } from './sheet-context.ts';

export interface Span { readonly first: number; readonly last: number }

/** Needles from the outermost to the outermost: of the cast-on (both beds), of the tube, of the heel's bed while it is turned. Read off what the program does. */
export function spansOf({ record: { program, trace, plan: { heelBed } } }: SheetContext): { readonly leg: Span; readonly tube: Span; readonly heel: Span } {
  const { needlesPerBed, passes, needleStates } = trace;
  const after = (pass: number, bed: Bed): Span => {
    const start = (2 * pass + BED[bed]) * needlesPerBed, carries = Array.from(needleStates.subarray(start, start + needlesPerBed), (state) => state !== NEEDLE.empty);
    return { first: carries.indexOf(true) + 1, last: carries.lastIndexOf(true) + 1 };
  };
  const castOn = program.steps.flatMap((step) => (step.do === 'cast-on' ? step.needles.map(({ needle }) => needle) : []));
  const sections = passes.map(({ section }) => section), heel = sections.indexOf('heel-in'), lastOfFoot = sections.lastIndexOf('foot');
  return { leg: { first: Math.min(...castOn), last: Math.max(...castOn) }, tube: after(lastOfFoot, heelBed), heel: after(heel, heelBed) };
}
