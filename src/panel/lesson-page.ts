import type { Problem } from '../base/problem.ts';
import type { Lesson } from '../sheet/lesson.ts';
import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import { fitProjected } from './fit-projected.ts';
import { drawBlocks, type FigurePart, type FigureSlot } from './lesson-blocks.ts';
import { createLessonSliders, type LessonSlider, type SliderHand } from './lesson-sliders.ts';

/** What the page of a lesson shows. */
export interface LessonPageState {
  readonly lesson: Lesson | null;
  /** Instead of a lesson: what became of it. */
  readonly waiting: { readonly words: string; readonly canTryAgain: boolean } | null;
  readonly at: number;
  readonly figure: (part: FigurePart) => string;
  readonly sliders: readonly LessonSlider[];
  readonly isChanged: boolean;
  /** What keeps the sock, as the learner has it, from being knitted. */
  readonly problems: readonly Problem[];
  readonly play: { readonly from: number; readonly to: number } | null;
  readonly isPlaying: boolean;
  readonly pass: { readonly pass: number; readonly last: number } | null;
  readonly isProjected: boolean;
  /** Null where the browser has no voice. */
  readonly isAloud: boolean | null;
  readonly isBuiltIn: boolean;
  readonly hasOpenStitches: boolean;
  readonly told: { readonly title: string; readonly problems: readonly Problem[] } | null;
}

export interface LessonPageHooks extends SliderHand {
  readonly go: (step: number) => void;
  readonly playOrStop: () => void;
  readonly backToStep: () => void;
  readonly openFile: (file: File) => void;
  readonly save: () => void;
  readonly openBuiltIn: () => void;
  readonly project: (isProjected: boolean) => void;
  readonly readAloud: (isAloud: boolean) => void;
  readonly dismiss: () => void;
}

export interface LessonPage { render(state: LessonPageState): void }

/** The lesson beside the picture: its text, one step at a time, and what the learner can move under the picture. */
export function createLessonPage(host: HTMLElement, hooks: LessonPageHooks): LessonPage {
  const words = pageWords().lesson, state = { at: -1, count: 0 };
  const name = el('p', { class: 'lesson-name', dir: 'auto' }), title = el('h2', { class: 'lesson-title', dir: 'auto' });
  const body = el('div', { class: 'lesson-body', dir: 'auto' }), told = el('div', { class: 'lesson-told', role: 'status' });
  const scroller = el('div', { class: 'lesson-scroll', tabindex: 0, role: 'group', 'aria-label': words.text }, told, title, body);
  const spoken = el('p', { class: 'visually-hidden', role: 'status' }), place = el('span', { class: 'lesson-place' });
  const steps = el('ol', { class: 'lesson-steps' });
  const back = button(words.previous, { class: 'lesson-turn' }, () => { hooks.go(state.at - 1); });
  const next = button(words.next, { class: 'lesson-turn is-next' }, () => { hooks.go(state.at + 1); });
  // Enter and space turn pages on the projector, as the clicker does.
  const menu = createMenu({ ...hooks, project: (isProjected) => { hooks.project(isProjected); if (isProjected) next.focus(); } });
  host.append(
    el('article', { class: 'lesson-text' },
      el('header', { class: 'lesson-head' }, name, menu.element), scroller,
      el('nav', { class: 'lesson-nav', 'aria-label': words.steps }, back, steps, place, next), spoken),
  );
  // A button that is done with its work cannot keep the focus: it goes to the step's text.
  const tools = createTools(host, { ...hooks, backToStep: () => { hooks.backToStep(); scroller.focus(); } });
  const slots: FigureSlot[] = [], fit = fitProjected(scroller);
  let drawn: Lesson | null = null, toldKey: unknown = null;
  return {
    render: (page) => {
      const { lesson, at, waiting } = page, step = lesson?.steps[at];
      if (page.told !== toldKey) {
        toldKey = page.told;
        told.replaceChildren(...(page.told === null ? [] : [drawTold(page.told, hooks.dismiss)]));
      }
      menu.render(page);
      tools.render(page);
      if (lesson === null || step === undefined) {
        setText(title, waiting?.words ?? '');
        body.replaceChildren(...(waiting?.canTryAgain === true ? [button(words.tryAgain, { class: 'bar-button' }, hooks.openBuiltIn)] : []));
        drawn = null;
        return;
      }
      if (lesson !== drawn) {
        drawn = lesson;
        state.at = -1;
        state.count = lesson.steps.length;
        setText(name, lesson.title);
        steps.replaceChildren(...lesson.steps.map((each, i) => el('li', {}, button(String(i + 1), { class: 'lesson-step', title: each.title, 'aria-label': `${words.stepOf(i + 1, state.count)}: ${each.title}` }, () => { hooks.go(i); }))));
      }
      if (at !== state.at) {
        state.at = at;
        slots.length = 0;
        setText(title, step.title);
        body.replaceChildren(...drawBlocks(at === 0 ? [...lesson.intro, ...step.blocks] : step.blocks, slots));
        scroller.scrollTop = 0;
        setText(spoken, `${words.stepOf(at + 1, state.count)}: ${step.title}`);
        setText(place, words.stepOf(at + 1, state.count));
        // A focused button keeps its focus: it only says that it leads nowhere.
        setAttributes(back, { 'aria-disabled': at === 0 ? 'true' : null });
        setAttributes(next, { 'aria-disabled': at === state.count - 1 ? 'true' : null });
        steps.querySelectorAll('button').forEach((element, i) => { setAttributes(element, { 'aria-current': i === at ? 'step' : null }); });
      }
      for (const { part, element } of slots) setText(element, page.figure(part));
      fit();
    },
  };
}

function drawTold({ title, problems }: NonNullable<LessonPageState['told']>, dismiss: () => void): HTMLElement {
  return el('section', { class: 'lesson-problems', 'aria-label': title }, el('h3', {}, title),
    el('ul', {}, ...problems.map(({ message }) => el('li', { dir: 'auto' }, message))), button(pageWords().lesson.dismiss, { class: 'notice-button' }, dismiss));
}

/** Play, the pass, the sliders and the way back, under the picture. */
function createTools(host: HTMLElement, hooks: LessonPageHooks): { render(page: LessonPageState): void } {
  const words = pageWords().lesson, sliderHost = el('div', { class: 'lesson-sliders' });
  const sliders = createLessonSliders(sliderHost, hooks);
  const play = button(words.play, { class: 'lesson-play' }, hooks.playOrStop), pass = el('output', { class: 'lesson-pass' });
  const back = button(words.backToStep, { class: 'lesson-back', title: words.backTip }, hooks.backToStep);
  const note = el('p', { class: 'lesson-note', role: 'status' }), legend = el('p', { class: 'lesson-legend' }, words.legend);
  const row = el('div', { class: 'lesson-row' }, play, pass, note, back);
  const tools = el('section', { class: 'lesson-tools', 'aria-label': words.controls }, legend, sliderHost, row);
  host.append(tools);
  return {
    render: (page) => {
      tools.hidden = page.lesson === null;
      legend.hidden = !page.hasOpenStitches;
      sliders.render(page.sliders);
      sliderHost.hidden = page.sliders.length === 0;
      play.hidden = page.play === null;
      setText(play, page.isPlaying ? words.stop : words.play);
      if (page.play !== null) setAttributes(play, { title: words.playTip(page.play.from, page.play.to), 'data-playing': page.isPlaying });
      pass.hidden = page.pass === null;
      setText(pass, page.pass === null ? '' : words.passOf(page.pass.pass, page.pass.last));
      back.disabled = !page.isChanged;
      const [problem] = page.problems;
      setText(note, page.problems.length > 0 ? `${words.wrong}: ${problem.message}` : page.isChanged ? words.isPlayed : words.isOwn);
      note.classList.toggle('is-problem', page.problems.length > 0);
    },
  };
}

/** What concerns the whole lesson: projector, voice, files. */
function createMenu(hooks: LessonPageHooks): { readonly element: HTMLElement; render(page: LessonPageState): void } {
  const words = pageWords().lesson;
  let isProjected = false, isAloud: boolean | null = null;
  const input = el('input', { type: 'file', accept: '.md,.markdown,.txt,text/markdown,text/plain', class: 'visually-hidden', 'data-opens': 'lesson', tabindex: -1, 'aria-hidden': 'true' });
  input.addEventListener('change', () => {
    const file = input.files?.[0];
    input.value = '';
    if (file !== undefined) hooks.openFile(file);
  });
  const project = button(words.project, { class: 'bar-button', title: words.projectTip }, () => { hooks.project(!isProjected); });
  const aloud = button(words.readAloud, { class: 'bar-button', title: words.readAloudTip }, () => { hooks.readAloud(isAloud !== true); });
  const open = button(words.openLesson, { class: 'bar-button' }, () => { input.click(); });
  const save = button(words.saveLesson, { class: 'bar-button', title: words.saveTip }, hooks.save);
  const builtIn = button(words.ownLesson, { class: 'bar-button' }, hooks.openBuiltIn);
  return {
    element: el('div', { class: 'lesson-menu' }, project, aloud, open, input, save, builtIn),
    render: (page) => {
      ({ isProjected, isAloud } = page);
      setText(project, isProjected ? words.leaveProjector : words.project);
      setAttributes(project, { 'aria-pressed': String(isProjected) });
      aloud.hidden = isAloud === null;
      setAttributes(aloud, { 'aria-pressed': String(isAloud === true) });
      save.disabled = page.lesson === null;
      builtIn.hidden = page.isBuiltIn;
    },
  };
}
