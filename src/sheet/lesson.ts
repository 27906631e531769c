import type { Problem } from '../base/problem.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { SectionName } from '../plan/step.ts';
import type { PoseName } from '../shape/pose.ts';

/** What is wrong with a lesson's text: a problem with its line, from 1; `field` is the setting's key. */
export interface LessonProblem extends Problem { readonly line: number }

/** Numbers of a sock that a lesson's text may name in braces; see lesson-figures.ts. */
export type FigureName =
  | 'stitches' | 'H' | 'W' | 'n' | 'held' | 'plateau' | 'heel-passes' | 'heel-rows' | 'heel-depth' | 'wraps'
  | 'T' | 'toe-passes' | 'toe-rows' | 'foot-length' | 'passes';
/** Of the sock as it is now, of the lesson's own sock, or how much the first is more than the second. */
export type FigureOf = 'this' | 'plain' | 'more';

export type Inline =
  | { readonly kind: 'text' | 'code'; readonly text: string }
  | { readonly kind: 'strong' | 'emphasis'; readonly parts: readonly Inline[] }
  | { readonly kind: 'link'; readonly parts: readonly Inline[]; readonly href: string }
  | { readonly kind: 'figure'; readonly name: FigureName; readonly of: FigureOf };

/** Paragraphs that begin with one of these words are shown as such; an answer is folded away. */
export type LessonMark = 'look' | 'try' | 'question' | 'answer';

export type LessonBlock =
  | { readonly kind: 'paragraph' | 'heading'; readonly parts: readonly Inline[] }
  | { readonly kind: 'mark'; readonly mark: LessonMark; readonly parts: readonly Inline[] }
  | { readonly kind: 'list'; readonly isNumbered: boolean; readonly items: readonly (readonly Inline[])[] }
  | { readonly kind: 'code'; readonly text: string };

/** Parts of the work that a lesson may name: sections, and those that belong together. */
export type PartName = SectionName | 'heel';

/** A pass of whatever sock is on the table: by number, or by its place in a part of the work. `before` is the last pass before the part. */
export type PassPlace =
  | { readonly kind: 'number'; readonly pass: number }
  | { readonly kind: 'part'; readonly part: PartName; readonly at: 'before' | 'start' | 'middle' | 'end'; readonly offset: number };

export type LessonView = 'side' | 'back' | 'front' | 'sole' | 'three-quarter';
export type LessonColours = 'yarn' | 'stretch-width' | 'stretch-length' | 'pass' | 'bed' | 'pressure' | 'gap' | 'longer' | 'wider';
/** Lines of the cloth that a step may draw over the sock. */
export type LessonLine = 'mitre' | 'short-base' | 'heel-row' | 'heel-diagonal';

/** What the simulator is to show; missing settings are the page's usual ones. */
export interface LessonScene {
  readonly pose?: PoseName;
  readonly pass?: PassPlace;
  readonly play?: { readonly from: PassPlace; readonly to: PassPlace };
  readonly view?: LessonView;
  readonly near?: 'all' | 'heel' | 'toe';
  readonly colours?: LessonColours;
  readonly foot?: 'inside' | 'hidden' | 'glass';
  readonly line?: LessonLine;
  /** The lesson's own sock, to be seen with this one. */
  readonly compare?: 'no' | 'beside' | 'over';
  /** Number fields of the sock that the learner may move. */
  readonly sliders?: readonly string[];
}

export interface LessonStep {
  readonly title: string;
  /** Line of its heading. */
  readonly line: number;
  readonly blocks: readonly LessonBlock[];
  readonly sock: SockFile;
  readonly scene: LessonScene;
}

export interface Lesson {
  readonly title: string;
  readonly intro: readonly LessonBlock[];
  /** The lesson's own sock, from which every step's differs by its settings. */
  readonly sock: SockFile;
  readonly steps: readonly LessonStep[];
}

/** The sock of a lesson that brings none: invented, of large stitches, so that they can be seen from afar and it answers at once. */
export const LESSON_SOCK: SockFile = {
  heelwright: 1, name: 'Lesson sock',
  gauge: { stitchesPer10cm: 20, rowsPer10cm: 28 },
  foot: { lengthMm: 250, ballGirthMm: 240 },
  leg: { lengthMm: 80 },
  heel: { turnDownWidth: 8, plateauPasses: 0, wraps: true },
  toe: { tipStitches: 8 },
  counts: { stitches: 48, legPasses: 20, anklePasses: 4, footPasses: 76 },
  yarns: [
    { colour: '#4f7ba3', from: 'leg' }, { colour: '#e0b354', from: 'heel' },
    { colour: '#4f7ba3', from: 'foot' }, { colour: '#e0b354', from: 'toe' },
  ],
};
