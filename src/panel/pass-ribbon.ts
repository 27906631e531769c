import type { Trace } from '../machine/trace.ts';
import type { PlannedYarn } from '../plan/plan-types.ts';
import type { SectionName } from '../plan/step.ts';
import { pageWords } from '../words/page-words.ts';
import { el } from './dom.ts';

interface Run { readonly yarn: number; passes: number }
type PartName = 'leg' | 'ankle' | 'heel' | 'foot' | 'toe';
interface Part { readonly name: PartName; readonly runs: Run[]; passes: number }

/** Sections that make one part of the sock to the eye. */
const PARTS: Readonly<Record<SectionName, PartName>> = {
  'cast-on': 'leg', leg: 'leg', plain: 'leg', ankle: 'ankle', foot: 'foot', toe: 'toe', 'heel-in': 'heel', 'heel-level': 'heel', 'heel-out': 'heel', 'toe-in': 'toe', 'toe-out': 'toe', closing: 'toe',
};

/** All passes in order in the colour of their yarn, one bar a part, as long as its passes: the sock unrolled. */
export function drawPassRibbon(trace: Trace, yarns: readonly PlannedYarn[]): HTMLElement[] {
  const { partPasses, partNames } = pageWords().plan;
  return partsOf(trace).map((part) => {
    const bar = el('span', { title: partPasses(partNames[part.name], part.passes) }, ...part.runs.map((run) => {
      const piece = el('i');
      piece.style.flexBasis = `${(100 * run.passes) / part.passes}%`;
      piece.style.background = yarns[run.yarn]?.colour ?? 'currentColor';
      return piece;
    }));
    bar.style.flexGrow = String(part.passes);
    return bar;
  });
}

function partsOf(trace: Trace): Part[] {
  const parts: Part[] = [];
  for (const { section, yarn, pass } of trace.passes) {
    if (pass === 0) continue;
    const name = PARTS[section];
    let part = parts.at(-1);
    if (part?.name !== name) parts.push(part = { name, runs: [], passes: 0 });
    const run = part.runs.at(-1);
    if (run?.yarn === yarn) run.passes += 1;
    else part.runs.push({ yarn, passes: 1 });
    part.passes += 1;
  }
  return parts;
}
