import type { Trace } from '../machine/trace.ts';
import type { WorkItem } from '../sheet/list-work.ts';
import { pageWords } from '../words/page-words.ts';
import { openPen } from './canvas-pen.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import { type ClothInks, drawLit, drawRim, drawSpotRing, frameSock, litColour, mixInks, paintCells, pixelX, pixelY, placeUnder, type SockFrame } from './finished-drawing.ts';
import { type FinishedSock, loopsOfStop, nearestLoop, type SockSide } from './finished-model.ts';
import { loopWords } from './loop-readout.ts';
import type { Spot } from './page-state.ts';
import { type PageLooks, readLooks } from './page-looks.ts';

export interface FinishedHooks {
  readonly point: (spot: Spot | null) => void;
  /** A click on a stitch: it stays picked, and the page goes to the pass that made it. */
  readonly goTo: (loop: number, pass: number) => void;
}

/** What the drawing shows of a sock. Without one, `status` says why. */
export interface FinishedView {
  readonly sock: FinishedSock | null;
  readonly status: 'waiting' | 'missing' | 'here';
  readonly trace: Trace;
  readonly item: WorkItem;
  readonly yarnColours: readonly string[];
  readonly spot: Spot | null;
  /** The picked stitch and what belongs to it; none where none is picked. */
  readonly picked: readonly number[];
}

export interface FinishedCard {
  render(view: FinishedView): void;
  dispose(): void;
}

const HEIGHT = 205, REACH_PX = 9;
/** Radii of the rings about the picked stitch and about what belongs to it. */
const PICKED_PX = 8, RELATIVE_PX = 3.5;

/** The finished sock, small: what is knitted by now in full colour, the stitches of this stop lit; each stitch leads to its pass. */
export function createFinishedCard(host: HTMLElement, hooks: FinishedHooks): FinishedCard {
  const words = pageWords().timeline;
  const canvas = el('canvas', { class: 'finished-canvas', tabindex: 0, role: 'img', 'aria-label': words.finished, 'aria-description': words.finishedKeys });
  const box = el('div', {}, canvas), about = el('p', { class: 'finished-about' }), told = el('p', { class: 'visually-hidden', 'aria-live': 'polite' });
  const painter = createPainter(canvas);
  let side: SockSide = 'right', drawn: FinishedView | null = null;
  const draw = (): void => {
    if (drawn === null) return;
    const { sock, status, item, trace } = drawn;
    canvas.hidden = sock === null;
    const lit = sock === null ? [] : loopsOfStop(sock, trace, item);
    setText(about, status === 'waiting' ? words.finishedWaiting : status === 'missing' ? words.finishedMissing : sideWords(sock, lit, side));
    if (sock !== null) painter.paint({ sock, side, pass: Math.min(item.index, trace.passes.length - 1), lit, yarnColours: drawn.yarnColours, litYarn: drawn.yarnColours[item.yarn] ?? '#000000', spot: drawn.spot?.loop ?? -1, picked: drawn.picked, width: box.clientWidth });
  };
  const turn = button(words.turnOver, { class: 'notice-button' }, () => {
    side = side === 'left' ? 'right' : 'left';
    draw();
  });
  host.append(el('div', { class: 'finished-head' }, el('h2', {}, words.finished), turn), box, about, el('p', { class: 'finished-help' }, words.finishedHelp), told);
  const point = (loop: number): void => { if ((drawn?.spot?.loop ?? -1) !== loop) hooks.point(loop < 0 ? null : { loop, from: 'finished' }); };
  const under = ({ offsetX, offsetY }: MouseEvent): number => {
    const frame = painter.frame();
    if (drawn?.sock == null || frame === null) return -1;
    return nearestLoop(drawn.sock, side, ...placeUnder(frame, offsetX, offsetY), REACH_PX / frame.scale);
  };
  const goTo = (loop: number): void => { if (loop >= 0 && drawn?.sock != null) hooks.goTo(loop, drawn.sock.grid.pass[loop]); };
  canvas.addEventListener('pointermove', (event) => { point(under(event)); });
  canvas.addEventListener('pointerleave', () => { point(-1); });
  canvas.addEventListener('click', (event) => { goTo(under(event)); });
  const walk = (key: string): boolean => {
    const frame = painter.frame();
    if (drawn?.sock == null || frame === null) return false;
    const { sock, spot } = drawn, here = spot?.loop ?? -1;
    const next = here < 0 && key in WAYS ? loopsOfStop(sock, drawn.trace, drawn.item)[0] ?? 0 : loopOfKey(key, here, sock, frame);
    if (next === null) return false;
    if (next < 0) return true;
    side = sock.isLeft[sock.fabric.loopVertex[next]] === 1 ? 'left' : 'right';
    setText(told, loopWords(sock.grid, next));
    point(next);
    return true;
  };
  canvas.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
    if (event.key === 'Enter') goTo(drawn?.spot?.loop ?? -1);
    else if (!walk(event.key)) return;
    event.preventDefault();
    event.stopPropagation();
  });
  canvas.addEventListener('blur', () => { point(-1); });
  const observer = new ResizeObserver(draw);
  observer.observe(box);
  return {
    render: (view) => {
      drawn = view;
      setAttributes(host, { 'data-status': view.status });
      draw();
    },
    dispose: () => { observer.disconnect(); },
  };
}

const WAYS: Readonly<Record<string, readonly [number, number]>> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** The neighbour in the fabric that lies most the way of an arrow key; -1 for none that way, null for another key. */
function loopOfKey(key: string, loop: number, { grid, fabric, places }: FinishedSock, frame: SockFrame): number | null {
  const way = WAYS[key];
  if (way === undefined) return null;
  const from = fabric.loopVertex[loop], neighbours = [grid.leftOf[loop], grid.rightOf[loop], grid.child[loop], ...grid.parents.slice(grid.parentStart[loop], grid.parentStart[loop + 1])];
  let best = -1, most = 0.3;
  for (const next of neighbours) {
    const to = next < 0 ? -1 : fabric.loopVertex[next];
    if (to < 0) continue;
    const dx = pixelX(frame, places[2 * to]) - pixelX(frame, places[2 * from]), dy = pixelY(frame, places[2 * to + 1]) - pixelY(frame, places[2 * from + 1]);
    const along = (dx * way[0] + dy * way[1]) / Math.max(1e-6, Math.sqrt(dx * dx + dy * dy));
    if (along <= most) continue;
    most = along;
    best = next;
  }
  return best;
}

function sideWords(sock: FinishedSock | null, lit: readonly number[], side: SockSide): string {
  if (sock === null) return '';
  const words = pageWords().timeline, here = lit.filter((loop) => (sock.isLeft[sock.fabric.loopVertex[loop]] === 1) === (side === 'left')).length;
  return words.sideShown(words.sockSides[side], here, lit.length - here);
}

interface Painting {
  readonly sock: FinishedSock;
  readonly side: SockSide;
  readonly pass: number;
  readonly lit: readonly number[];
  readonly yarnColours: readonly string[];
  /** Colour of the yarn of the lit stitches. */
  readonly litYarn: string;
  readonly spot: number;
  readonly picked: readonly number[];
  readonly width: number;
}

/** Keeps the cloth as a picture of its own, and paints over only what a step has changed. */
function createPainter(canvas: HTMLCanvasElement): { paint(painting: Painting): void; frame(): SockFrame | null } {
  const cloth = document.createElement('canvas');
  let key: readonly unknown[] = [], frame: SockFrame | null = null, inks: ClothInks = [], pass = 0;
  const begin = ({ sock, side, width, yarnColours, pass: now }: Painting, looks: PageLooks): SockFrame => {
    const next = frameSock(sock, width, HEIGHT, side);
    for (const each of [canvas, cloth]) {
      each.width = Math.round(width * devicePixelRatio);
      each.height = Math.round(HEIGHT * devicePixelRatio);
    }
    canvas.style.width = `${width}px`;
    canvas.style.height = `${HEIGHT}px`;
    inks = mixInks(yarnColours, looks);
    const pen = penOf(cloth);
    paintCells(pen, next, sock, inks, { from: 0, to: now, isDone: true });
    paintCells(pen, next, sock, inks, { from: now + 1, to: Infinity, isDone: false });
    drawRim(cloth, pen, looks);
    pass = now;
    return next;
  };
  return {
    frame: () => frame,
    paint: (painting) => {
      const { sock, side, pass: now, width } = painting, looks = readLooks(), wanted = [sock, side, width, looks, painting.yarnColours.join(), devicePixelRatio];
      if (width <= 0) return;
      if (frame === null || wanted.some((part, i) => part !== key[i])) frame = begin(painting, looks);
      else if (now !== pass) {
        paintCells(penOf(cloth), frame, sock, inks, { from: Math.min(now, pass) + 1, to: Math.max(now, pass), isDone: now > pass });
        pass = now;
      }
      key = wanted;
      const pen = penOf(canvas);
      pen.clearRect(0, 0, width, HEIGHT);
      pen.drawImage(cloth, 0, 0, width, HEIGHT);
      drawLit(pen, frame, sock, painting.lit, litColour(painting.litYarn));
      drawPicked(pen, frame, painting, looks);
      if (painting.spot >= 0) drawSpotRing(pen, frame, sock, painting.spot, looks);
    },
  };
}

/** A ring about the picked stitch, and small ones about what belongs to it where they do not lie in that ring. */
function drawPicked(pen: CanvasRenderingContext2D, frame: SockFrame, { sock, picked }: Painting, looks: PageLooks): void {
  const at = (loop: number): readonly [number, number] | null => {
    const v = sock.fabric.loopVertex[loop];
    return v < 0 ? null : [pixelX(frame, sock.places[2 * v]), pixelY(frame, sock.places[2 * v + 1])];
  };
  const [first, ...others] = picked, middle = first === undefined ? null : at(first);
  for (const loop of others) {
    const place = at(loop);
    if (place !== null && (middle === null || Math.hypot(place[0] - middle[0], place[1] - middle[1]) > PICKED_PX + RELATIVE_PX)) drawSpotRing(pen, frame, sock, loop, looks, RELATIVE_PX);
  }
  if (first !== undefined) drawSpotRing(pen, frame, sock, first, looks, PICKED_PX);
}

function penOf(canvas: HTMLCanvasElement): CanvasRenderingContext2D {
  const pen = openPen(canvas);
  if (pen === null) throw new Error('finished-card: the browser gives no 2D canvas');
  pen.setTransform(devicePixelRatio, 0, 0, devicePixelRatio, 0, 0);
  return pen;
}
