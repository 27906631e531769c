import { createChartBar } from '../panel/chart-bar.ts';
import type { ChartChoices } from '../panel/chart-bar.ts';
import { createChartBoard } from '../panel/chart-board.ts';
import { drawChartLegend } from '../panel/chart-legend.ts';
import { nearestInPass, stepOnChart } from '../panel/chart-walk.ts';
import type { ChartStep } from '../panel/chart-walk.ts';
import { el, setText } from '../panel/dom.ts';
import type { ChartColours } from '../panel/draw-chart.ts';
import type { PageState } from '../panel/page-state.ts';
import { pickedLoop, pickLoop } from '../panel/picked-loop.ts';
import type { KnittedSock } from '../pipeline/result.ts';
import { usualPass } from '../pipeline/usual-pass.ts';
import { marksIn, MARK_PATHS } from '../sheet/chart-marks.ts';
import type { ChartModel } from '../sheet/chart-model.ts';
import { describeStitch } from '../sheet/describe-stitch.ts';
import { describeWork } from '../sheet/describe-work.ts';
import { labelChart } from '../sheet/label-chart.ts';
import type { ChartLabels } from '../sheet/label-chart.ts';
import { layChart } from '../sheet/lay-chart.ts';
import { listWork } from '../sheet/list-work.ts';
import type { WorkItem } from '../sheet/list-work.ts';
import type { NeedleNumbers } from '../sheet/needle-label.ts';
import { fitCellWidth } from '../sheet/page-chart.ts';
import { marksOf, writeChart } from '../sheet/write-chart.ts';
import type { ChartStyle } from '../sheet/write-chart.ts';
import type { Lit, SockView } from '../view/sock-view-types.ts';
import { pageWords } from '../words/page-words.ts';
import { keepChoices, readChoices } from './chart-choices.ts';
import { createChartPrint } from './chart-print.ts';
import { readChartColours } from './chart-colours.ts';
import type { Room, RoomTools } from './rooms.ts';
import { litByPick } from './stitch-desk.ts';
import { fileName } from './save-file.ts';

/** A chart as laid out, and what it was laid out from. */
interface Laid {
  readonly knitted: KnittedSock;
  readonly choices: Pick<ChartChoices, 'part' | 'cut'>;
  readonly numbers: NeedleNumbers;
  readonly chart: ChartModel;
  readonly labels: ChartLabels;
  readonly work: readonly WorkItem[];
}

/** The stitches of the sock in a plane, beside the sock itself. */
export function createChartRoom(tools: RoomTools): Room {
  const { host, store, keeper, view } = tools;
  let choices = readChoices(keeper.read('chart')), laid: Laid | null = null, isNew = true;
  const told = pageWords().chart, bar = createChartBar({
    choose: (change) => {
      choices = { ...choices, ...change };
      keepChoices(keeper, choices);
      draw(store.state());
    },
    zoomBy: (factor) => { board.zoomBy(factor); }, fit: () => { board.fit(); },
    save: () => { if (laid !== null) saveChart(laid, choices); }, print: () => { window.print(); },
  });
  const board = createChartBoard({
    markPaths: MARK_PATHS,
    point: (cell) => { pointAt(tools, laid, cell); },
    choose: (cell) => { if (laid !== null) chooseStitch(tools, laid, cell); },
    walk: (step) => { if (laid !== null) board.reveal(walk(tools, laid, step)); },
  });
  const words = createChartWords(), light = createLight(view), legend = el('details', { class: 'chart-legend', open: true });
  host.append(bar.element, board.element, words.element, legend);
  createChartPrint(() => (laid === null || store.state().settings.room !== 'chart' ? null
    : { chart: laid.chart, cellWidthMm: choices.cellWidthMm, style: styleOf(laid, choices) }));
  const draw = (state: PageState): void => {
    bar.render(choices);
    const { knitted, settings: { needleNumbers } } = state, before = laid?.chart, picked = pickedLoop(state);
    laid = knitted === null ? null : layAgain(laid, knitted, choices, needleNumbers);
    const colours = readChartColours(laid?.knitted.plan.yarns ?? []);
    // A stitch that was picked elsewhere is to be seen here.
    if (isNew && laid !== null && picked >= 0 && !hasLoop(laid, picked)) {
      choices = { ...choices, part: 'sock' };
      bar.render(choices);
      laid = layAgain(laid, laid.knitted, choices, needleNumbers);
    }
    isNew &&= laid === null;
    if (laid === null) {
      board.show(null, colours);
      words.wait();
      return;
    }
    if (laid.chart !== before) {
      legend.replaceChildren(el('summary', {}, told.legend), ...drawChartLegend(laid.chart, marksOf(laid.chart), MARK_PATHS));
      board.name(told.applicationLabel(told.part[choices.part], laid.knitted.plan.name));
    }
    showChart(laid, state, choices, colours);
  };
  const showChart = (laid: Laid, state: PageState, { isTinted, isProgress }: ChartChoices, colours: ChartColours): void => {
    const { chart, labels, knitted } = laid, { bedsPass, spot } = state, loop = spot?.loop ?? -1, cell = loop < 0 ? -1 : chart.cellOfLoop[loop] ?? -1;
    const lit = litByPick(state), picked = lit.map((id) => chart.cellOfLoop[id] ?? -1), pass = cell < 0 ? bedsPass : chart.pass[cell];
    light.show(knitted, pass, loop < 0 ? lit : [loop, ...lit], lit[0] ?? null);
    board.show({ chart, labels, marksOfBits: marksIn, isTinted, isProgress, pass: bedsPass ?? (isProgress ? usualPass(knitted) : null), spot: cell, picked: picked[0] ?? -1, relatives: picked.slice(1).filter((at) => at >= 0) }, colours);
    words.show(laid, cell < 0 ? picked[0] ?? -1 : cell);
  };
  return {
    render: draw,
    leave: () => {
      clearSpot(tools);
      light.end();
      isNew = true;
    },
  };
}

/** The stitch pointed at, or picked, in words, and what its pass does. */
function createChartWords(): { readonly element: HTMLElement; wait(): void; show(laid: Laid, cell: number): void } {
  const told = pageWords().chart, stitch = el('p', { class: 'chart-stitch' }), work = el('p', { class: 'chart-work' });
  return {
    element: el('div', { class: 'chart-words', 'aria-live': 'polite' }, stitch, work),
    wait: () => { setText(stitch, told.waiting); },
    show: ({ chart, knitted, work: items, numbers }, cell) => {
      const options = { words: pageWords(), numbers }, item = cell < 0 ? undefined : items[chart.pass[cell]];
      setText(stitch, cell < 0 ? told.nothing : describeStitch(knitted.grid, chart, knitted.trace.needlesPerBed, chart.loop[cell], options));
      const words = item === undefined ? null : describeWork(knitted, item, options);
      setText(work, words === null ? '' : `${words.title}. ${words.acts.join(' ')}`);
    },
  };
}

/** Lights the picture where there is something new to be lit. */
function createLight(view: SockView | null): { show(knitted: KnittedSock, pass: number | null, loops: readonly number[], strongest: number | null): void; end(): void } {
  let key = '', sock: KnittedSock | null = null;
  return {
    show: (knitted, pass, loops, strongest) => {
      const next = `${pass ?? ''} ${loops.join()} ${strongest ?? ''}`;
      if (next !== key || knitted !== sock) view?.setLit(litOf(knitted, pass, loops, strongest));
      [key, sock] = [next, knitted];
    },
    end: () => {
      view?.setLit(null);
      key = '';
    },
  };
}

/** The stitches of the pass pointed at, or gone through, and some more; null lights none. */
function litOf({ trace }: KnittedSock, pass: number | null, loops: readonly number[], strongest: number | null): Lit | null {
  const record = pass === null ? undefined : trace.passes[pass];
  if (record === undefined) return loops.length === 0 ? null : { first: 0, end: 0, loops, strongest };
  return { first: record.firstLoop, end: record.endLoop, loops, strongest };
}

function layAgain(laid: Laid | null, knitted: KnittedSock, { part, cut }: ChartChoices, numbers: NeedleNumbers): Laid {
  const isSame = laid?.knitted === knitted && laid.choices.part === part && laid.choices.cut === cut;
  if (laid !== null && isSame && laid.numbers === numbers) return laid;
  const chart = laid !== null && isSame ? laid.chart : layChart(knitted, part, cut);
  const work = laid?.knitted === knitted ? laid.work : listWork(knitted.program, knitted.trace);
  return { knitted, choices: { part, cut }, numbers, chart, work, labels: labelChart(chart, knitted.trace.needlesPerBed, numbers) };
}

function hasLoop({ chart }: Laid, loop: number): boolean { return (chart.cellOfLoop[loop] ?? -1) >= 0; }

function pointAt(tools: RoomTools, laid: Laid | null, cell: number): void {
  if (laid === null || cell < 0) clearSpot(tools);
  else if (tools.store.state().spot?.loop !== laid.chart.loop[cell]) tools.store.update({ spot: { loop: laid.chart.loop[cell], from: 'chart' } });
}

/** Takes back what was pointed at here; what is pointed at elsewhere stays. */
function clearSpot({ store }: RoomTools): void {
  if (store.state().spot?.from === 'chart') store.update({ spot: null });
}

/** A stitch that is chosen stays picked, and the page goes to its pass. */
function chooseStitch(tools: RoomTools, { chart, knitted: { grid } }: Laid, cell: number): void {
  tools.store.update({ picked: pickLoop(grid, chart.loop[cell]) });
  choosePassOf(tools, chart.pass[cell]);
}

/** On the beds the sock is hung up anew; any other pose is of the whole sock, and stays. */
function choosePassOf({ store, choosePass }: RoomTools, pass: number): void {
  if (store.state().settings.pose === 'beds') choosePass(pass);
  else store.update({ bedsPass: pass });
}

/** Goes a step from the stitch pointed at, or to the pass gone through, and returns the cell. */
function walk({ store }: RoomTools, { chart, knitted }: Laid, step: ChartStep): number {
  const { spot, bedsPass } = store.state(), from = spot?.loop ?? -1, middle = Math.floor(chart.columnCount / 2);
  const isHere = from >= 0 && (chart.cellOfLoop[from] ?? -1) >= 0;
  const begun = nearestInPass(chart, bedsPass ?? -1, middle), first = begun >= 0 ? begun : nearestInPass(chart, chart.passes[0].pass, middle);
  // A wrap is no stop: it stands for the loop that it lies round.
  const loop = isHere ? stepOnChart(knitted.grid, chart, chart.loop[chart.cellOfLoop[from]], step) : first;
  store.update({ spot: { loop, from: 'chart' } });
  return chart.cellOfLoop[loop];
}

function styleOf({ knitted, numbers }: Laid, { isTinted }: ChartChoices): Omit<ChartStyle, 'cellWidthMm'> {
  return { words: pageWords(), numbers, needlesPerBed: knitted.trace.needlesPerBed, yarns: knitted.plan.yarns, name: knitted.plan.name, isTinted };
}

function saveChart(laid: Laid, choices: ChartChoices): void {
  const text = writeChart(laid.chart, { ...styleOf(laid, choices), cellWidthMm: choices.cellWidthMm ?? fitCellWidth(laid.chart) });
  const url = URL.createObjectURL(new Blob([text], { type: 'image/svg+xml' })), link = el('a', { href: url, download: `${fileName(laid.knitted.plan.name)}-${laid.chart.part}.svg` });
  link.click();
  setTimeout(() => { URL.revokeObjectURL(url); }, 10_000);
}
