import type { Problem } from '../base/problem.ts';
import { createLessonPage, type LessonPageState } from '../panel/lesson-page.ts';
import type { LessonSlider } from '../panel/lesson-sliders.ts';
import type { PageState } from '../panel/page-state.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { Plan } from '../plan/plan-types.ts';
import { type ControlPath, rangesFor } from '../plan/ranges.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { findFigure } from '../sheet/lesson-figures.ts';
import { plainText } from '../sheet/lesson-markdown.ts';
import { MOST_LESSON_BYTES } from '../sheet/read-lesson.ts';
import { pageWords } from '../words/page-words.ts';
import { LessonDesk } from './lesson-desk.ts';
import { listenToLessonKeys } from './lesson-keys.ts';
import { fetchLesson, keepPlace, readPlaceKept, saveLesson, shelve, type ShelvedLesson } from './lesson-shelf.ts';
import { createVoice, type Voice } from './read-aloud.ts';
import type { Room, RoomTools } from './rooms.ts';

const USUAL_SLIDERS = ['heel.turnDownWidth', 'heel.plateauPasses', 'gauge.rowsPer10cm'];

/** A lesson beside the picture, from the page's own folder or from a teacher's file; each step moves the simulator. */
export function createLessonRoom(tools: RoomTools): Room {
  const room = new LessonRoom(tools);
  return { render: (state) => { room.render(state); }, leave: () => { room.leave(); }, openFile: (file) => { room.openFile(file); } };
}

class LessonRoom {
  private readonly tools: RoomTools;
  private readonly desk: LessonDesk;
  private readonly voice: Voice = createVoice();
  private readonly page;
  private shelved: ShelvedLesson | null = null;
  private plain: Plan | null = null;
  private at = 0;
  private isActive = false;
  private isProjected = false;
  private isAloud = false;
  private waiting: LessonPageState['waiting'] = null;
  private told: LessonPageState['told'] = null;
  private sliders: { readonly file: SockFile; readonly rows: readonly LessonSlider[] } | null = null;
  private stopListening: () => void = () => undefined;

  constructor(tools: RoomTools) {
    this.tools = tools;
    this.desk = new LessonDesk(tools);
    this.page = createLessonPage(tools.host, {
      go: (step) => { this.go(step); },
      playOrStop: () => { this.playOrStop(); },
      backToStep: () => { this.showStep(); },
      move: (path, value) => { this.desk.move(path, value); },
      finish: () => { this.desk.finish(); },
      openFile: (file) => { this.openFile(file); },
      save: () => { if (this.shelved !== null) saveLesson(this.shelved); },
      openBuiltIn: () => { this.openBuiltIn(0); },
      project: (isProjected) => { this.project(isProjected); },
      readAloud: (isAloud) => {
        this.isAloud = isAloud;
        if (isAloud) this.say();
        else this.voice.hush();
        this.draw();
      },
      dismiss: () => { this.told = null; this.draw(); },
    });
  }

  render(state: PageState): void {
    if (!this.isActive) {
      this.isActive = true;
      // After this round of drawing, in which the others have still the person's own sock.
      queueMicrotask(() => { this.enter(); });
      return;
    }
    this.desk.render(state);
    this.drawPage(state);
  }

  leave(): void {
    if (!this.isActive) return;
    this.isActive = false;
    this.stopListening();
    this.voice.hush();
    this.project(false);
    this.desk.leave();
  }

  openFile(file: File): void {
    const { refusedTitle, unreadable, problems } = pageWords().lesson;
    const refuse = (title: string, wrong: readonly Problem[]): void => {
      this.told = { title, problems: wrong };
      this.draw();
    };
    if (file.size > MOST_LESSON_BYTES) {
      refuse(refusedTitle(file.name), [{ field: null, value: null, allowed: problems.tooLargeAllowed, message: problems.atLine(1, problems.tooLarge) }]);
      return;
    }
    file.text().then((text) => {
      const shelved = shelve(text, file.name);
      if (shelved.lesson === null) refuse(refusedTitle(file.name), shelved.problems);
      else this.take(shelved, 0);
    }, (error: unknown) => { refuse(unreadable(file.name, String(error)), []); });
  }

  private enter(): void {
    if (!this.isActive) return;
    this.desk.enter();
    this.stopListening = listenToLessonKeys({
      turn: (by) => { this.go(this.at + by); }, isProjected: () => this.isProjected, leaveProjector: () => { this.project(false); },
    });
    if (this.shelved !== null) { this.showStep(); return; }
    const { name, text, step } = readPlaceKept(this.tools.keeper);
    const kept = name === null || text === null ? null : shelve(text, name);
    if (kept?.lesson != null) this.take(kept, step);
    else this.openBuiltIn(name === null ? step : 0);
  }

  private openBuiltIn(step: number): void {
    const words = pageWords().lesson;
    this.waiting = { words: words.loading, canTryAgain: false };
    this.draw();
    const before = this.shelved;
    fetchLesson().then((shelved) => {
      // Another may have been opened meanwhile.
      if (this.shelved === before) this.take(shelved, step);
    }, (error: unknown) => {
      this.waiting = { words: words.notFetched(error instanceof Error ? error.message : String(error)), canTryAgain: true };
      this.draw();
    });
  }

  /** A lesson that was read takes the place of the one before; what was not understood of it is told beside it. */
  private take(shelved: ShelvedLesson, step: number): void {
    if (shelved.lesson === null) return;
    const words = pageWords().lesson, name = shelved.name ?? shelved.lesson.title;
    this.shelved = shelved;
    this.waiting = null;
    this.plain = planSock(shelved.lesson.sock).plan;
    this.at = Math.min(step, shelved.lesson.steps.length - 1);
    this.told = shelved.problems.length === 0 ? null : { title: words.problemsTitle(name), problems: shelved.problems };
    if (!this.keep() && shelved.name !== null) this.told = { title: words.notKept, problems: shelved.problems };
    if (this.isActive) this.showStep();
  }

  private go(step: number): void {
    const last = (this.shelved?.lesson?.steps.length ?? 0) - 1;
    if (step < 0 || step > last || step === this.at) return;
    this.at = step;
    this.keep();
    this.showStep();
  }

  private keep(): boolean {
    const name = this.shelved?.name ?? null;
    return keepPlace(this.tools.keeper, { name, text: name === null ? null : this.shelved?.text ?? null, step: this.at });
  }

  private showStep(): void {
    const lesson = this.shelved?.lesson, step = lesson?.steps[this.at];
    if (lesson == null || step === undefined) return;
    this.desk.show(step, lesson.sock);
    if (this.isAloud) this.say();
    this.draw();
  }

  private playOrStop(): void {
    if (this.desk.isPlaying) this.desk.stop();
    else this.desk.play();
    this.draw();
  }

  /** Over the whole screen, where the browser lets it; over the whole page in any case. */
  private project(isProjected: boolean): void {
    if (isProjected === this.isProjected) return;
    this.isProjected = isProjected;
    document.body.classList.toggle('is-projected', isProjected);
    const { documentElement: root } = document;
    if (isProjected) root.requestFullscreen().catch(() => undefined);
    else if (document.fullscreenElement !== null) document.exitFullscreen().catch(() => undefined);
    this.tools.view?.reset();
    this.draw();
  }

  private say(): void {
    const step = this.shelved?.lesson?.steps[this.at], { voice } = pageWords().lesson, state = this.tools.store.state();
    if (step === undefined) return;
    const words = step.blocks.flatMap((block) => {
      if (block.kind === 'code' || (block.kind === 'mark' && block.mark === 'answer')) return [];
      const lines = block.kind === 'list' ? block.items : [block.parts];
      return lines.map((parts) => plainText(parts, (part) => this.figure(part, state)));
    });
    this.voice.say([step.title, ...words].join('. '), voice);
  }

  private figure({ name, of }: Parameters<LessonPageState['figure']>[0], { planned }: PageState): string {
    const now = planned?.plan ?? null, { plain } = this;
    if (now === null || plain === null) return '–';
    const value = of === 'this' ? findFigure(now, name) : of === 'plain' ? findFigure(plain, name) : findFigure(now, name) - findFigure(plain, name);
    return value.toLocaleString(pageWords().lesson.voice);
  }

  private draw(): void { if (this.isActive) this.drawPage(this.tools.store.state()); }

  private drawPage(state: PageState): void {
    const lesson = this.shelved?.lesson ?? null, step = lesson?.steps[this.at], { knitted, settings } = state;
    const last = (knitted?.trace.passes.length ?? 1) - 1, isOnBeds = (settings.pose === 'beds' || this.desk.isPlaying) && knitted !== null && state.bedsPass !== null;
    this.page.render({
      lesson, waiting: this.waiting, at: this.at, figure: (part) => this.figure(part, state), told: this.told,
      sliders: this.slidersOf(state, step?.scene.sliders ?? USUAL_SLIDERS), problems: state.problems,
      isChanged: step !== undefined && (state.file !== step.sock || this.desk.isPlaying || this.desk.isElsewhere(state)),
      play: this.desk.playSpan(), isPlaying: this.desk.isPlaying,
      pass: isOnBeds ? { pass: Math.min(last, state.bedsPass ?? last), last } : null,
      isProjected: this.isProjected, isAloud: this.voice.isThere ? this.isAloud : null, isBuiltIn: this.shelved?.name == null,
      hasOpenStitches: state.planned?.plan.heelWraps === false,
    });
  }

  /** Worked out once for each sock: the page is drawn far more often. */
  private slidersOf({ file, planned, problems }: PageState, paths: readonly string[]): readonly LessonSlider[] {
    if (this.sliders?.file === file && this.sliders.rows.length === paths.length && this.sliders.rows.every(({ path }, i) => path === paths[i])) return this.sliders.rows;
    const before = new Map(this.sliders?.rows.map((row) => [row.path, row])), ranges = problems.length > 0 ? null : rangesFor(file);
    const rows = paths.map((path): LessonSlider => {
      const value = valueOf(file, planned?.plan ?? null, path), range = ranges?.[path as ControlPath] ?? before.get(path)?.range ?? { min: 0, max: 0, step: 1 };
      return { path, value, range };
    });
    this.sliders = { file, rows };
    return rows;
  }
}

/** A number as the file has it, or as it was worked out. */
function valueOf(file: SockFile, plan: Plan | null, path: string): number | null {
  let held: unknown = file;
  for (const key of path.split('.')) held = (held as Readonly<Record<string, unknown>> | undefined)?.[key];
  if (typeof held === 'number') return held;
  const planned: unknown = (plan as unknown as Readonly<Record<string, unknown>> | null)?.[PLANNED[path] ?? ''];
  return typeof planned === 'number' ? planned : null;
}

const PLANNED: Readonly<Record<string, keyof Plan>> = {
  'heel.turnDownWidth': 'turnDownWidth', 'heel.plateauPasses': 'plateauPasses', 'heel.stitches': 'heelStitches', 'toe.tipStitches': 'toeTipStitches',
  'toe.passesPerDecrease': 'passesPerDecrease', 'toe.slantStitches': 'toeSlantStitches', 'counts.stitches': 'stitches',
  'counts.legPasses': 'legPasses', 'counts.anklePasses': 'anklePasses', 'counts.footPasses': 'footPasses', 'machine.needlesPerBed': 'needlesPerBed',
};
