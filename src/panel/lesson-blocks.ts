import type { Inline, LessonBlock } from '../sheet/lesson.ts';
import { pageWords } from '../words/page-words.ts';
import { el } from './dom.ts';

export type FigurePart = Extract<Inline, { kind: 'figure' }>;

/** A figure in the text, to be filled in whenever the sock changes. */
export interface FigureSlot { readonly part: FigurePart; readonly element: HTMLElement }

/** Draws a lesson's text as elements: what is in it becomes text, never markup. `slots` takes every figure's place. */
export function drawBlocks(blocks: readonly LessonBlock[], slots: FigureSlot[]): HTMLElement[] {
  const { marks, showAnswer } = pageWords().lesson;
  return blocks.map((block) => {
    switch (block.kind) {
      case 'paragraph': return el('p', {}, ...drawInlines(block.parts, slots));
      case 'heading': return el('h3', {}, ...drawInlines(block.parts, slots));
      case 'code': return el('pre', {}, el('code', {}, block.text));
      case 'list': {
        const items = block.items.map((parts) => el('li', {}, ...drawInlines(parts, slots)));
        return block.isNumbered ? el('ol', {}, ...items) : el('ul', {}, ...items);
      }
      case 'mark':
        if (block.mark === 'answer') return el('details', { class: 'lesson-mark', 'data-mark': 'answer' }, el('summary', {}, showAnswer), el('p', {}, ...drawInlines(block.parts, slots)));
        return el('p', { class: 'lesson-mark', 'data-mark': block.mark }, el('strong', { class: 'lesson-label' }, marks[block.mark]), ...drawInlines(block.parts, slots));
      default: return block satisfies never;
    }
  });
}

function drawInlines(parts: readonly Inline[], slots: FigureSlot[]): (Node | string)[] {
  return parts.map((part) => {
    switch (part.kind) {
      case 'text': return part.text;
      case 'code': return el('code', {}, part.text);
      case 'strong': return el('strong', {}, ...drawInlines(part.parts, slots));
      case 'emphasis': return el('em', {}, ...drawInlines(part.parts, slots));
      case 'link': return el('a', { href: part.href, rel: 'noopener noreferrer', target: '_blank' }, ...drawInlines(part.parts, slots));
      case 'figure': {
        const element = el('span', { class: 'lesson-figure' });
        slots.push({ part, element });
        return element;
      }
      default: return part satisfies never;
    }
  });
}
