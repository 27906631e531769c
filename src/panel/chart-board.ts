import { pageWords } from '../words/page-words.ts';
import type { ChartMark } from '../sheet/chart-marks.ts';
import type { ChartModel } from '../sheet/chart-model.ts';
import { fitChart, panChart, placeUnder, revealCell, zoomChart } from './chart-camera.ts';
import type { BoardSize, ChartCamera } from './chart-camera.ts';
import { createMarkStamps } from './chart-stamps.ts';
import type { MarkStamps } from './chart-stamps.ts';
import type { ChartStep } from './chart-walk.ts';
import { el, setAttributes } from './dom.ts';
import { drawChart } from './draw-chart.ts';
import type { ChartColours, ChartPicture } from './draw-chart.ts';

/** The chart on the screen: drawn as far as it is in sight, moved and zoomed by hand, walked on by keyboard. */
export interface ChartBoard {
  readonly element: HTMLElement;
  /** Draws this from now on; another chart is framed. */
  show(picture: ChartPicture | null, colours: ChartColours): void;
  zoomBy(factor: number): void;
  fit(): void;
  /** Brings a cell into sight. */
  reveal(cell: number): void;
  /** Names the board, and says what its keys do. */
  name(label: string): void;
  /** Draws at once; for tests and the bench. */
  drawNow(): void;
}

export interface BoardHooks {
  readonly markPaths: Readonly<Record<ChartMark, string>>;
  /** The pointer rests on this cell, -1 for none. */
  readonly point: (cell: number) => void;
  /** A cell was clicked, or Enter pressed. */
  readonly choose: (cell: number) => void;
  readonly walk: (step: ChartStep) => void;
}

const KEYS: Readonly<Partial<Record<string, ChartStep>>> = {
  ArrowLeft: 'left', ArrowRight: 'right', ArrowUp: 'up', ArrowDown: 'down', PageUp: 'pass-on', PageDown: 'pass-back', Home: 'row-start', End: 'row-end',
};
export const ZOOM_STEP = 1.3;
/** Pixels that a press may wander and still be a click. */
const CLICK_PX = 5;

export function createChartBoard(hooks: BoardHooks): ChartBoard {
  const canvas = el('canvas', { 'aria-hidden': 'true' });
  const element = el('div', { class: 'chart-board', role: 'application', tabindex: 0, 'aria-describedby': 'chart-keys' },
    canvas, el('p', { class: 'visually-hidden', id: 'chart-keys' }, pageWords().chart.keys));
  let picture: ChartPicture | null = null, colours: ChartColours | null = null, size: BoardSize = { width: 0, height: 0 };
  // Null: all of the chart, framed anew when it or the board changes.
  let camera: ChartCamera | null = null, stamps: MarkStamps | null = null, frame = 0;
  const draw = (): void => {
    frame = 0;
    const context = canvas.getContext('2d');
    if (context === null || colours === null || size.width === 0) return;
    const ratio = Math.min(2, window.devicePixelRatio), [width, height] = [Math.round(size.width * ratio), Math.round(size.height * ratio)];
    if (stamps?.pixelRatio !== ratio) stamps = createMarkStamps(hooks.markPaths, ratio);
    if (canvas.width !== width || canvas.height !== height) Object.assign(canvas, { width, height });
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    if (picture === null) context.clearRect(0, 0, size.width, size.height);
    else drawChart(context, picture, camera ?? fitChart(picture.chart, size), size, colours, stamps);
  };
  const look = (next: (chart: ChartModel, from: ChartCamera) => ChartCamera | null): void => {
    if (picture !== null && size.width > 0) camera = next(picture.chart, camera ?? fitChart(picture.chart, size));
    if (frame === 0) frame = requestAnimationFrame(draw);
  };
  const zoom = (factor: number, at = { x: size.width / 2, y: size.height / 2 }): void => { look((chart, from) => zoomChart(chart, size, from, factor, at)); };
  const fit = (): void => { look(() => null); };
  const cellUnder = (x: number, y: number): number => {
    if (picture === null || size.width === 0) return -1;
    const { chart } = picture, { column, row } = placeUnder(chart, camera ?? fitChart(chart, size), x, y);
    return column < 0 || row < 0 || column >= chart.columnCount || row >= chart.rowCount ? -1 : chart.cellAt[row * chart.columnCount + column];
  };
  const choose = (cell: number): void => { if (cell >= 0) hooks.choose(cell); };
  listenToPointers(element, {
    hover: (x, y) => { hooks.point(cellUnder(x, y)); }, leave: () => { hooks.point(-1); }, click: (x, y) => { choose(cellUnder(x, y)); },
    pan: (dx, dy) => { look((chart, from) => panChart(chart, size, from, dx, dy)); }, zoom,
  });
  listenToKeys(element, { walk: hooks.walk, choose: () => { choose(picture?.spot ?? -1); }, zoom, fit });
  new ResizeObserver(() => {
    size = { width: element.clientWidth, height: element.clientHeight };
    look((_, from) => (camera === null ? null : from));
  }).observe(element);
  return {
    element, zoomBy: zoom, fit,
    show: (next, nextColours) => {
      if (next?.chart !== picture?.chart) camera = null;
      picture = next;
      colours = nextColours;
      look((_, from) => (camera === null ? null : from));
    },
    reveal: (cell) => { look((chart, from) => { const moved = revealCell(chart, size, from, cell); return moved === from && camera === null ? null : moved; }); },
    name: (label) => { setAttributes(element, { 'aria-label': label }); },
    drawNow: draw,
  };
}

interface KeyHooks { readonly walk: (step: ChartStep) => void; readonly choose: () => void; readonly zoom: (factor: number) => void; readonly fit: () => void }

function listenToKeys(element: HTMLElement, { walk, choose, zoom, fit }: KeyHooks): void {
  const others: Readonly<Partial<Record<string, () => void>>> = {
    Enter: choose, '+': () => { zoom(ZOOM_STEP); }, '=': () => { zoom(ZOOM_STEP); }, '-': () => { zoom(1 / ZOOM_STEP); }, 0: fit,
  };
  element.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const step = KEYS[event.key], other = others[event.key];
    if (step !== undefined) walk(step);
    else if (other !== undefined) other();
    else return;
    event.preventDefault();
  });
}

interface PointerHooks {
  readonly hover: (x: number, y: number) => void;
  readonly leave: () => void;
  readonly click: (x: number, y: number) => void;
  readonly pan: (dx: number, dy: number) => void;
  readonly zoom: (factor: number, at: { readonly x: number; readonly y: number }) => void;
}

/** One pointer pans or clicks, two zoom, none pressed hovers; a wheel zooms. */
function listenToPointers(element: HTMLElement, hooks: PointerHooks): void {
  const down = new Map<number, { x: number; y: number }>();
  let wandered = 0;
  const at = (event: MouseEvent): { x: number; y: number } => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  element.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    if (down.size === 0) wandered = 0;
    down.set(event.pointerId, at(event));
    element.setPointerCapture(event.pointerId);
  });
  element.addEventListener('pointermove', (event) => {
    const now = at(event), before = down.get(event.pointerId);
    if (before === undefined) {
      if (down.size === 0) hooks.hover(now.x, now.y);
      return;
    }
    wandered += Math.abs(now.x - before.x) + Math.abs(now.y - before.y);
    const other = [...down].find(([id]) => id !== event.pointerId)?.[1];
    down.set(event.pointerId, now);
    if (other === undefined) {
      if (wandered > CLICK_PX) hooks.pan(now.x - before.x, now.y - before.y);
    } else {
      const apart = (p: { x: number; y: number }): number => Math.max(1, Math.hypot(p.x - other.x, p.y - other.y));
      hooks.pan((now.x - before.x) / 2, (now.y - before.y) / 2);
      hooks.zoom(apart(now) / apart(before), { x: (now.x + other.x) / 2, y: (now.y + other.y) / 2 });
    }
  });
  const lift = (event: PointerEvent): void => {
    const was = down.get(event.pointerId);
    down.delete(event.pointerId);
    if (event.type === 'pointerup' && was !== undefined && down.size === 0 && wandered <= CLICK_PX) hooks.click(was.x, was.y);
  };
  element.addEventListener('pointerup', lift);
  element.addEventListener('pointercancel', lift);
  element.addEventListener('pointerleave', (event) => { if (!down.has(event.pointerId)) hooks.leave(); });
  element.addEventListener('wheel', (event) => {
    event.preventDefault();
    hooks.zoom(Math.exp(-event.deltaY * (event.deltaMode === 1 ? 0.05 : 0.0015)), at(event));
  }, { passive: false });
}
