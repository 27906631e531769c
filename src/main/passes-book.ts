import { type BedBook, createBedBook } from '../panel/bed-model.ts';
import { markSections, type SectionMark } from '../panel/section-marks.ts';
import type { KnittedSock } from '../pipeline/result.ts';
import { listWork, type WorkItem } from '../sheet/list-work.ts';

/** All that the room of passes reads of one sock, made once. */
export interface PassesBook {
  readonly knitted: KnittedSock;
  readonly items: readonly WorkItem[];
  readonly marks: readonly SectionMark[];
  readonly bedBook: BedBook;
  /** What sock it is of. */
  readonly key: string;
}

/** The book at hand if it is of the same sock: each answer of the worker brings the sock anew. */
export function createPassesBook(knitted: KnittedSock, atHand: PassesBook | null): PassesBook {
  if (atHand?.knitted === knitted) return atHand;
  const key = JSON.stringify([knitted.file, knitted.plan]);
  if (atHand?.key === key) return atHand;
  const items = listWork(knitted.program, knitted.trace);
  return { knitted, items, marks: markSections(items), bedBook: createBedBook(knitted, items), key };
}
