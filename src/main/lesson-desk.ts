import { SECTION } from '../machine/codes.ts';
import type { PageState, Settings } from '../panel/page-state.ts';
import type { PosedSock } from '../pipeline/result.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { SectionName } from '../plan/step.ts';
import { withField } from '../plan/with-field.ts';
import type { LessonScene, LessonStep, PassPlace } from '../sheet/lesson.ts';
import { findPass, listSections } from '../sheet/lesson-places.ts';
import { pageWords } from '../words/page-words.ts';
import type { GrowthState } from './growth-desk.ts';
import { placeMark } from './place-mark.ts';
import type { RoomTools } from './rooms.ts';

/** What the lesson borrows from the page's tools. */
type DeskTools = Omit<RoomTools, 'host' | 'keeper' | 'openSock'>;

/** Least time that a played pass is seen; one whose first shape is still under way is waited for. */
const PASS_MS = 280;

const HEEL = new Set<number>([SECTION['heel-in'], SECTION['heel-level'], SECTION['heel-out'], SECTION.ankle]);
const TOE = new Set<number>([SECTION.toe, SECTION['toe-in'], SECTION['toe-out']]);
const MARKS = { mitre: 'mitreLeft', 'short-base': 'shortBase', 'heel-row': 'heelFirstRow', 'heel-diagonal': 'heelDiagonal' } as const;

type PageLooks = Pick<Settings, 'pose' | 'layer' | 'footLook' | 'arrangement'>;
type Own = Pick<PageState, 'bedsPass' | 'companion' | 'spot'> & { readonly settings: PageLooks };
/** `timer` runs from when the pass hangs there. */
interface Playing { pass: number; readonly to: number; timer: ReturnType<typeof setTimeout> | undefined }

/** Where the lesson moves the simulator: it lends the table a sock of its own and gives everything back as it was. */
export class LessonDesk {
  private readonly tools: DeskTools;
  private own: Own | null = null;
  private step: LessonStep | null = null;
  private hasToShow = false;
  private lineOf: unknown = null;
  private playing: Playing | null = null;
  private sections: { readonly file: SockFile; readonly list: readonly SectionName[] } | null = null;

  constructor(tools: DeskTools) {
    this.tools = tools;
    tools.growth.onState((state) => { this.heard(state); });
  }

  /** The person's own sock, view and second sock wait. */
  enter(): void {
    const { settings: { pose, layer, footLook, arrangement }, bedsPass, companion, spot = null } = this.tools.store.state();
    this.own ??= { settings: { pose, layer, footLook, arrangement }, bedsPass, companion, spot };
  }

  /** All as the step has it; `plain` is the lesson's own sock. */
  show(step: LessonStep, plain: SockFile): void {
    const { store, view, picture, deskOf, poseAgain } = this.tools, { scene, sock } = step;
    const isCompared = scene.compare === 'beside' || scene.compare === 'over';
    this.dropPlay();
    this.step = step;
    picture?.frameNext();
    store.update({
      settings: { ...store.state().settings, ...looksOf(scene) }, bedsPass: this.passIn(sock, scene.pass ?? scene.play?.from), spot: null,
      companion: isCompared ? { name: pageWords().lesson.plainSock, file: plain, problems: [], knitted: null, posed: null, shape: { kind: 'none' } } : null,
    });
    view?.lookAt(scene.near === 'heel' ? HEEL : scene.near === 'toe' ? TOE : null);
    view?.showLine(null, '');
    deskOf().lend(sock);
    if (isCompared) poseAgain();
    this.hasToShow = true;
  }

  /** The learner moves a number of the sock. */
  move(path: string, value: number): void {
    const { store, deskOf } = this.tools;
    this.dropPlay();
    const file = withField(store.state().file, path, value), pass = this.passIn(file, this.step?.scene.pass ?? this.step?.scene.play?.from);
    if (pass !== null) store.update({ bedsPass: pass });
    deskOf().propose(file, path);
  }

  finish(): void { this.tools.deskOf().finish(); }

  play(): void {
    const span = this.playSpan(), { store, view, growth } = this.tools;
    if (span === null) return;
    this.playing = { pass: span.from, to: span.to, timer: undefined };
    store.update({ bedsPass: span.from });
    growth.show(span.from);
    view?.showPreset('front');
    this.heard(growth.state());
  }

  /** What was played stays where it has come to, as cloth on the beds. */
  stop(): void {
    const { playing } = this, { growth, store, picture, choosePass } = this.tools;
    if (playing === null) return;
    this.endPlay();
    growth.show(null);
    const { settings } = store.state();
    if (settings.pose !== 'beds') store.update({ settings: { ...settings, pose: 'beds' } });
    picture?.frameNext();
    choosePass(playing.pass);
  }

  get isPlaying(): boolean { return this.playing !== null; }

  /** First and last pass that the present step plays on the present sock; null where it plays none. */
  playSpan(): { readonly from: number; readonly to: number } | null {
    const { file } = this.tools.store.state(), play = this.step?.scene.play;
    const from = this.passIn(file, play?.from), to = this.passIn(file, play?.to);
    return from === null || to === null || to <= from ? null : { from, to };
  }

  /** Another pose, pass or colouring is on show than the step's. */
  isElsewhere({ settings, bedsPass, file }: PageState): boolean {
    if (this.step === null) return false;
    const { scene } = this.step, wanted = looksOf(scene);
    return settings.pose !== wanted.pose || settings.layer !== wanted.layer || settings.footLook !== wanted.footLook
      || settings.arrangement !== wanted.arrangement || (settings.pose === 'beds' && bedsPass !== this.passIn(file, scene.pass ?? scene.play?.from));
  }

  /** Draws what waits for a shape at rest, and goes on playing. */
  render({ posed, knitted, shape }: PageState): void {
    const { view } = this.tools, scene = this.step?.scene;
    if (posed === null || scene === undefined || shape.kind !== 'settled') return;
    if (this.hasToShow) {
      this.hasToShow = false;
      view?.showPreset(scene.view ?? (posed.pose.name === 'beds' ? 'front' : 'side'));
    }
    if (posed !== this.lineOf) this.drawLine(posed, knitted, scene);
  }

  leave(): void {
    const { store, view, picture, deskOf, choose, poseAgain } = this.tools;
    this.dropPlay();
    this.step = null;
    if (this.own === null) return;
    const { settings, ...rest } = this.own;
    this.own = null;
    view?.lookAt(null);
    view?.showLine(null, '');
    picture?.frameNext();
    store.update(rest);
    deskOf().giveBack();
    // Kept for the next visit too: nothing of the lesson's stays.
    choose(settings);
    if (rest.companion !== null) poseAgain();
  }

  private drawLine(posed: PosedSock, knitted: PageState['knitted'], { line }: LessonScene): void {
    this.lineOf = posed;
    const marks = posed.part === null ? knitted?.fabric.marks ?? null : null;
    const points = line === undefined || marks === null ? null : placeMark(marks[MARKS[line]], posed.pose.positions);
    this.tools.view?.showLine(points, line === undefined ? '' : pageWords().lesson.lines[line]);
  }

  /** The growth has come to a pass, or will not come any farther. */
  private heard({ pass, failure }: GrowthState): void {
    const { playing } = this;
    if (playing === null || playing.timer !== undefined) return;
    if (failure !== null) this.stop();
    else if (pass === playing.pass) playing.timer = setTimeout(() => { this.goOn(playing); }, PASS_MS);
  }

  private goOn(playing: Playing): void {
    const { store, growth } = this.tools;
    if (playing !== this.playing) return;
    playing.timer = undefined;
    if (playing.pass >= playing.to) { this.stop(); return; }
    playing.pass += 1;
    store.update({ bedsPass: playing.pass });
    growth.show(playing.pass);
    this.heard(growth.state());
  }

  private endPlay(): void {
    clearTimeout(this.playing?.timer);
    this.playing = null;
  }

  /** Something else is shown next. */
  private dropPlay(): void {
    if (this.playing === null) return;
    this.endPlay();
    this.tools.growth.show(null);
  }

  private passIn(file: SockFile, place: PassPlace | undefined): number | null {
    if (place === undefined) return null;
    if (this.sections?.file !== file) {
      const { plan } = planSock(file);
      this.sections = { file, list: plan === null ? [] : listSections(plan) };
    }
    return findPass(this.sections.list, place);
  }
}

/** What the step wants of the page; what it does not name is as usual. */
function looksOf({ pose, colours, foot, compare }: LessonScene): PageLooks {
  return { pose: pose ?? 'tube', layer: colours ?? 'yarn', footLook: foot ?? 'inside', arrangement: compare === 'over' ? 'over' : 'beside' };
}
