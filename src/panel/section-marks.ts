import type { SectionName } from '../plan/step.ts';
import type { WorkItem } from '../sheet/list-work.ts';

/** A part of the work to jump to. `turn` is the part that begins with turning the work. */
export interface SectionMark {
  readonly part: SectionName | 'turn';
  /** First and last stop. */
  readonly stop: number;
  readonly end: number;
}

/** The parts of the work in order; together they are all stops. */
export function markSections(items: readonly WorkItem[]): SectionMark[] {
  const marks: { part: SectionName | 'turn'; section: SectionName; stop: number; end: number }[] = [];
  for (const { index, section, before } of items) {
    const isTurn = before.some((step) => step.do === 'transfer' && step.why === 'turn'), mark = marks.at(-1);
    if (mark?.section === section && !isTurn) mark.end = index;
    else marks.push({ part: isTurn ? 'turn' : section, section, stop: index, end: index });
  }
  return marks.map(({ part, stop, end }) => ({ part, stop, end }));
}

export function markAt(marks: readonly SectionMark[], stop: number): SectionMark | undefined {
  return marks.find((mark) => stop >= mark.stop && stop <= mark.end);
}

/** The first stop of the next part, or of this or the previous one; the last stop where there is none. */
export function jumpBySection(marks: readonly SectionMark[], stop: number, direction: 1 | -1): number {
  const starts = marks.map((mark) => mark.stop);
  return direction > 0 ? starts.find((start) => start > stop) ?? marks.at(-1)?.end ?? 0 : starts.filter((start) => start < stop).at(-1) ?? 0;
}
