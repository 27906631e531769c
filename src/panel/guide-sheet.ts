import type { FootDrawing } from '../foot/draw-foot.ts';
import type { MeasuringGuide } from '../foot/measuring-guide.ts';
import type { PlannedFoot } from '../plan/plan-types.ts';
import { pageWords } from '../words/page-words.ts';
import { createDialog } from './dialog.ts';
import { button, el } from './dom.ts';
import { drawFootView } from './foot-drawing.ts';
import type { PageState } from './page-state.ts';

export interface GuideSheet {
  render(state: PageState): void;
  open(): void;
}

export interface GuideHooks {
  readonly guide: MeasuringGuide;
  /** The foot that the sock is planned for. */
  readonly drawFoot: (foot: PlannedFoot) => FootDrawing;
}

/** How to measure a foot: the tapes over the person's own foot, and in words. A line and its words light up together. */
export function createGuideSheet({ guide, drawFoot }: GuideHooks): GuideSheet {
  const say = pageWords().fit, sheet = createDialog('guide-sheet', say.howToMeasure);
  const drawings = el('figure', { class: 'guide-drawings' });
  const steps = guide.steps.map(({ measure, name, how }, index) => el('li', { 'data-measure': measure, 'data-number': index + 1 },
    el('span', { class: 'guide-number', 'aria-hidden': 'true' }, String(index + 1)),
    el('div', {}, button(name, { class: 'guide-name' }, () => { light(measure); }), el('p', {}, how))));
  sheet.body.append(
    el('ul', { class: 'guide-before' }, ...guide.before.map((words) => el('li', {}, words))),
    el('div', { class: 'guide-parts' }, drawings, el('ol', { class: 'guide-steps' }, ...steps)),
    el('ul', { class: 'guide-cautions' }, ...guide.cautions.map((words) => el('li', {}, words))));
  const numberOf = (measure: string): number => guide.steps.findIndex((step) => step.measure === measure) + 1;

  const light = (measure: string | null): void => {
    for (const each of sheet.body.querySelectorAll('[data-measure]')) each.classList.toggle('is-lit', each.getAttribute('data-measure') === measure);
  };
  const measureOf = (target: EventTarget | null): string | null => (target instanceof Element ? target.closest('[data-measure]')?.getAttribute('data-measure') ?? null : null);
  sheet.body.addEventListener('pointerover', ({ target }) => { light(measureOf(target)); });
  sheet.body.addEventListener('focusin', ({ target }) => { light(measureOf(target)); });

  let now: PageState | null = null;
  return {
    render: (state) => { now = state; },
    open: () => {
      const foot = now?.planned?.foot ?? null;
      drawings.hidden = foot === null;
      if (foot !== null) {
        const { side, above } = drawFoot(foot);
        drawings.replaceChildren(
          drawFootView(side, say.guide.fromSide, false, numberOf),
          drawFootView(above, say.guide.fromAbove, true, numberOf),
          el('figcaption', {}, say.guide.caption));
      }
      light(null);
      sheet.open();
    },
  };
}
