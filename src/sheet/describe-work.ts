import type { Words } from '../words/words.ts';
import type { KnitRecord } from './knit-record.ts';
import type { WorkItem } from './list-work.ts';
import type { NeedleNumbers } from './needle-label.ts';

/** A stop of the work in words. */
export interface WorkWords {
  /** `Heel, turning down: pass 63 of 240`. */
  readonly title: string;
  /** What to do, one sentence a handling, in order. */
  readonly acts: readonly string[];
  /** Why it is done; empty where there is nothing new to say. */
  readonly why: string;
  /** What to watch; empty where there is nothing. */
  readonly watch: string;
}

export interface WordOptions { readonly words: Words; readonly numbers: NeedleNumbers }

/** What to do at a stop, why, and what to watch. */
export function describeWork({ trace, program }: Pick<KnitRecord, 'trace' | 'program'>, item: WorkItem, { words }: WordOptions): WorkWords {
  const { passes: told } = words, last = trace.passes.length - 1;
  const title = item.kind === 'pass' ? `${told.sections[item.section]}: ${told.passOf(item.index, last)}` : told[item.kind === 'closing' ? 'closing' : 'castOn'];
  const bed = item.beds.length === 2 ? told.bothBeds : told.bed[item.beds[0] ?? 'front'];
  const acts = item.kind === 'pass' ? [told.crossing(told.side[item.from], told.side[item.to], bed, item.knitted)] : [];
  if (program.steps.length === 0) throw new Error('describe-work: an empty program');
  return { title, acts, why: '', watch: '' };
}
