import type { FabricMarks } from '../fabric/fabric.ts';
import type { PageState, RoomName, Settings } from '../panel/page-state.ts';
import { pickedLoop, pickLoop } from '../panel/picked-loop.ts';
import { createStitchCard, type StitchView } from '../panel/stitch-card.ts';
import type { KnittedSock } from '../pipeline/result.ts';
import { roundOf } from '../sheet/find-progress.ts';
import { listWork, type WorkItem } from '../sheet/list-work.ts';
import { labelNeedle } from '../sheet/needle-label.ts';
import { readStitch, relativesOf, type StitchStep, stepFrom } from '../sheet/read-stitch.ts';
import type { HoveredLoop, SockView } from '../view/sock-view-types.ts';
import type { PageStore } from './page-store.ts';
import { createYarnRuler, type YarnRuler } from './yarn-ruler.ts';

/** Pixels a stitch at which a picked stitch is shown close. */
const CLOSE_PIXELS = 80;
/** Rooms in which a stitch is picked and told of. */
const ROOMS: ReadonlySet<RoomName> = new Set<RoomName>(['shape', 'passes', 'chart']);
const STEPS: readonly StitchStep[] = ['yarn-back', 'yarn-on', 'up', 'down'];

export interface StitchTools {
  readonly store: PageStore;
  readonly view: SockView | null;
  readonly canvas: HTMLCanvasElement;
  /** Where the card stands in a room. */
  readonly hostOf: (room: RoomName) => HTMLElement;
  readonly choose: (change: Partial<Settings>) => void;
  readonly choosePass: (pass: number) => void;
}

/** The stitch that is picked: where it is told of, how it is walked from, and how it is let go. */
export interface StitchDesk {
  /** A click or a tap in the picture. */
  pickAt(hovered: HoveredLoop | null): void;
  /** From the keyboard on the picture: picks a stitch there, unless one is picked, and goes to its card. */
  enter(): void;
  /** The stitch that a close look is at: the picked one, else one where there is something to see; -1 for none. */
  lookedAt(): number;
  render(state: PageState): void;
}

export function createStitchDesk(tools: StitchTools): StitchDesk {
  const { store, view, canvas } = tools, ruler = createYarnRuler(() => { store.update({}); }), book = createWorkBook();
  const pick = (loop: number): void => {
    const { knitted } = store.state();
    if (knitted !== null && loop >= 0) store.update({ picked: pickLoop(knitted.grid, loop) });
  };
  const letGo = (): void => {
    if (card.element.contains(document.activeElement)) canvas.focus();
    store.update({ picked: null });
  };
  const card = createStitchCard({
    pick, letGo,
    step: (step) => {
      const state = store.state(), loop = pickedLoop(state);
      if (state.knitted !== null && loop >= 0) pick(stepFrom(state.knitted.grid, readStitch(state.knitted.grid, loop), step));
    },
    showClose: () => { view?.approach(anchorOf(store.state(), pickedLoop(store.state())), CLOSE_PIXELS); },
    goToPass: () => { goToPass(tools); },
    showInChart: () => { tools.choose({ room: 'chart' }); },
  });
  listenToEscape(() => {
    const state = store.state(), isShown = !card.element.hidden && pickedLoop(state) >= 0;
    if (isShown) letGo();
    return isShown;
  });
  let litKey = '';
  return {
    pickAt: (hovered) => {
      if (!ROOMS.has(store.state().settings.room) || hovered?.sock === 'second') return;
      if (hovered === null) letGo();
      else pick(hovered.loop);
    },
    enter: () => {
      if (!ROOMS.has(store.state().settings.room)) return;
      if (pickedLoop(store.state()) < 0) pick(startOf(store.state()));
      card.focus();
    },
    lookedAt: () => anchorOf(store.state(), pickedLoop(store.state()) < 0 ? startOf(store.state()) : pickedLoop(store.state())),
    render: (state) => {
      const { settings: { room }, knitted } = state, loop = ROOMS.has(room) ? pickedLoop(state) : -1;
      card.show(loop < 0 ? null : tools.hostOf(room), loop < 0 || knitted === null ? null : viewOf(state, knitted, loop, { ruler, book }));
      // Rooms that go through the work light its stitches themselves, with the picked one among them.
      const key = room === 'shape' && loop >= 0 ? `${loop} ${knitted?.grid.loopCount ?? 0}` : '';
      if (key === litKey) return;
      litKey = key;
      if (key !== '') view?.setLit({ first: 0, end: 0, loops: litByPick(state), strongest: loop });
      else if (room === 'shape' || room === 'lesson') view?.setLit(null);
    },
  };
}

/** The picked stitch and its relatives, for a picture that lights stitches. */
export function litByPick(state: Pick<PageState, 'picked' | 'knitted'>): number[] {
  const loop = pickedLoop(state);
  return state.knitted === null || loop < 0 ? [] : [loop, ...relativesOf(readStitch(state.knitted.grid, loop))];
}

interface WorkBook { itemsOf(sock: KnittedSock): readonly WorkItem[] }

function createWorkBook(): WorkBook {
  let known: { readonly sock: KnittedSock; readonly items: readonly WorkItem[] } | null = null;
  return {
    itemsOf: (sock) => {
      if (known?.sock !== sock) known = { sock, items: listWork(sock.program, sock.trace) };
      return known.items;
    },
  };
}

function viewOf(state: PageState, sock: KnittedSock, loop: number, { ruler, book }: { readonly ruler: YarnRuler; readonly book: WorkBook }): StitchView {
  const { grid, trace, plan } = sock, { needleNumbers, lengthUnit } = state.settings, facts = readStitch(grid, loop), item = book.itemsOf(sock)[facts.pass];
  const isOfPass = facts.kind === 'knit' || facts.kind === 'purl';
  return {
    facts, round: isOfPass && item !== undefined ? roundOf(item) : null, labelOf: (needle) => labelNeedle(needle, trace.needlesPerBed, needleNumbers),
    factsOf: (id) => readStitch(grid, id), ways: new Set(STEPS.filter((step) => stepFrom(grid, facts, step) >= 0)),
    yarn: plan.yarns[facts.yarn] ?? null, metre: ruler.placeOf(state, loop), lengthUnit, isInPicture: anchorOf(state, loop) >= 0,
  };
}

/** The stitch of the cloth in the picture that stands for a loop: itself, what it lies round or joins; -1 where the picture has none of it. */
function anchorOf(state: PageState, loop: number): number {
  const { knitted } = state;
  if (knitted === null || loop < 0) return -1;
  const { fabric: { loopVertex }, grid } = knitted, facts = readStitch(grid, loop), last = lastPassIn(state);
  return [loop, facts.host, ...facts.parents].find((id) => id >= 0 && loopVertex[id] >= 0 && grid.pass[id] <= last) ?? -1;
}

/** The last pass of which the picture has cloth. */
function lastPassIn({ settings: { room, pose }, bedsPass, posed }: PageState): number {
  if (room === 'passes') return bedsPass ?? 0;
  return pose === 'beds' ? posed?.part?.pass ?? -1 : Infinity;
}

/** Where the keyboard begins: in the middle of the last pass that hangs, or half way along the heel's mitre. */
function startOf(state: PageState): number {
  const { knitted } = state, last = lastPassIn(state);
  if (knitted === null) return -1;
  const { fabric, trace } = knitted, pass = trace.passes[last];
  if (pass !== undefined) return pass.firstLoop + Math.floor(pass.knitted / 2);
  return fabric.marks === null ? 0 : fabric.vertexLoop[nearerMitre(fabric.marks, state)];
}

/** The middle of the mitre that the side view shows: it looks along +y, and a sock turned inside out is its own mirror image. */
function nearerMitre({ mitreLeft, mitreRight }: FabricMarks, { posed, settings: { isInsideOut } }: PageState): number {
  const [left, right] = [mitreLeft, mitreRight].map(({ a }) => a[Math.floor(a.length / 2)]);
  const yOf = (vertex: number): number => posed?.pose.positions[3 * vertex + 1] ?? 0;
  return (yOf(left) <= yOf(right)) === isInsideOut ? right : left;
}

function goToPass({ store, choose, choosePass }: StitchTools): void {
  const state = store.state(), loop = pickedLoop(state), pass = loop < 0 ? undefined : state.knitted?.grid.pass[loop];
  if (pass === undefined) return;
  if (state.settings.room === 'passes' || state.settings.pose === 'beds') choosePass(pass);
  else store.update({ bedsPass: pass });
  choose({ room: 'passes' });
}

/** Escape is the nearest sheet's, the large picture's and the text field's before it is the stitch's. */
function listenToEscape(letGo: () => boolean): void {
  window.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape' || event.defaultPrevented || document.querySelector('dialog[open], .is-large') !== null) return;
    if (event.target instanceof HTMLInputElement || event.target instanceof HTMLSelectElement || event.target instanceof HTMLTextAreaElement) return;
    if (letGo()) event.preventDefault();
  });
}
