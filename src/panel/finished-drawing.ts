import { openPen } from './canvas-pen.ts';
import type { FinishedSock, SockSide } from './finished-model.ts';
import type { PageLooks } from './page-looks.ts';

/** A sock's place on its canvas: pixels = (mm - origin) times scale, mirrored for its left side. */
export interface SockFrame { readonly scale: number; readonly left: number; readonly top: number; readonly width: number; readonly height: number; readonly side: SockSide }

type Pen = CanvasRenderingContext2D;
type Colour = readonly [number, number, number];

const MARGIN_PX = 7;
/** How much of the page's colour is mixed into what is not knitted yet, and how dark the purl stitches of a rib are; chosen by eye. */
const PALE = 0.8, PURL = 0.16, ROW = 0.05;

/** The whole sock in a box of pixels. */
export function frameSock({ extent: [left, top, right, bottom] }: FinishedSock, width: number, height: number, side: SockSide): SockFrame {
  const scale = Math.min((width - 2 * MARGIN_PX) / (right - left), (height - 2 * MARGIN_PX) / (bottom - top));
  return { scale, width, height, side, left: (width - scale * (right - left)) / 2 - scale * left, top: (height - scale * (bottom - top)) / 2 - scale * top };
}

export function pixelX({ scale, left, width, side }: SockFrame, mm: number): number {
  const x = scale * mm + left;
  return side === 'right' ? x : width - x;
}

export function pixelY({ scale, top }: SockFrame, mm: number): number {
  return scale * mm + top;
}

/** The place in the sock under a pixel, mm. */
export function placeUnder(frame: SockFrame, x: number, y: number): readonly [number, number] {
  const across = frame.side === 'right' ? x : frame.width - x;
  return [(across - frame.left) / frame.scale, (y - frame.top) / frame.scale];
}

/** Colours of each yarn, knitted and not knitted yet: plain, every other row, and purl. */
export type ClothInks = readonly { readonly done: readonly string[]; readonly pale: readonly string[] }[];

export function mixInks(yarnColours: readonly string[], { card }: PageLooks): ClothInks {
  const page = parseColour(card);
  return yarnColours.map((hex) => {
    const yarn = parseColour(hex), tones = [yarn, mix(yarn, [0, 0, 0], ROW), mix(yarn, [0, 0, 0], PURL)];
    return { done: tones.map(toCss), pale: tones.map((tone) => toCss(mix(tone, page, PALE))) };
  });
}

function parseColour(hex: string): Colour {
  const value = Number.parseInt(hex.slice(1), 16);
  return [(value >> 16) & 255, (value >> 8) & 255, value & 255];
}

function mix(a: Colour, b: Colour, share: number): Colour {
  return [0, 1, 2].map((i) => a[i] + share * (b[i] - a[i])) as unknown as Colour;
}

function toCss(colour: Colour): string {
  return `rgb(${colour.map(Math.round).join(' ')})`;
}

/** Paints the cells of one layer that are completed in passes `from` to `to`, in the colours of their yarn; cells that are painted again lie over the old ones. */
export function paintCells(pen: Pen, frame: SockFrame, sock: FinishedSock, inks: ClothInks, { from, to, isDone }: { readonly from: number; readonly to: number; readonly isDone: boolean }): void {
  const { cellOrder, passStart, cellIsLeft, fabric: { cellStart, cellVertices, vertexLoop }, grid, places } = sock, isLeft = frame.side === 'left' ? 1 : 0;
  pen.lineWidth = 0.6;
  for (let i = passStart[Math.max(0, from)]; i < passStart[Math.min(to, passStart.length - 2) + 1]; i++) {
    const cell = cellOrder[i];
    if (cellIsLeft[cell] !== isLeft) continue;
    const start = cellStart[cell], loop = vertexLoop[cellVertices[start]], tone = grid.isPurl[loop] === 1 ? 2 : grid.pass[loop] % 4 < 2 ? 0 : 1;
    pen.beginPath();
    for (let corner = start; corner < cellStart[cell + 1]; corner++) {
      const v = cellVertices[corner];
      pen.lineTo(pixelX(frame, places[2 * v]), pixelY(frame, places[2 * v + 1]));
    }
    pen.closePath();
    const ink = inks[grid.yarn[loop]];
    pen.fillStyle = pen.strokeStyle = (isDone ? ink.done : ink.pale)[tone];
    pen.fill();
    // Over the hair lines between neighbours.
    pen.stroke();
  }
}

/** A line round the whole sock, under what is painted already: what is not knitted yet may be as pale as the page. */
export function drawRim(cloth: HTMLCanvasElement, pen: Pen, looks: PageLooks): void {
  const rim = document.createElement('canvas'), rimPen = openPen(rim), reach = RIM_PX * devicePixelRatio;
  rim.width = cloth.width;
  rim.height = cloth.height;
  if (rimPen === null) return;
  for (const [x, y] of [[1, 0], [-1, 0], [0, 1], [0, -1], [0.7, 0.7], [0.7, -0.7], [-0.7, 0.7], [-0.7, -0.7]]) rimPen.drawImage(cloth, reach * x, reach * y);
  rimPen.globalCompositeOperation = 'source-in';
  rimPen.fillStyle = looks.soft;
  rimPen.fillRect(0, 0, rim.width, rim.height);
  pen.save();
  pen.setTransform(1, 0, 0, 1, 0, 0);
  pen.globalCompositeOperation = 'destination-over';
  pen.drawImage(rim, 0, 0);
  pen.restore();
}

const RIM_PX = 1.2;

/** As the picture lights stitches: in the one of two colours that is farther from their yarn's. */
const LIT = ['#ffd400', '#ff2a9d'] as const, CASING = '#1d1407';

export function litColour(yarn: string): string {
  const [one, other] = LIT.map((colour) => parseColour(colour).reduce((sum, part, i) => sum + (part - parseColour(yarn)[i]) ** 2, 0));
  return one >= other ? LIT[0] : LIT[1];
}

/** The stitches of a stop, neighbours joined: a line with a dark casing, dashed where it runs behind the sock. */
export function drawLit(pen: Pen, frame: SockFrame, sock: FinishedSock, loops: readonly number[], colour: string): void {
  const { fabric, grid, isLeft, places } = sock, lit = new Set(loops), front = frame.side === 'left' ? 1 : 0;
  for (const isBehind of [true, false]) {
    pen.beginPath();
    for (const loop of loops) {
      const v = fabric.loopVertex[loop], next = grid.rightOf[loop], w = next < 0 || !lit.has(next) ? -1 : fabric.loopVertex[next];
      const x = pixelX(frame, places[2 * v]), y = pixelY(frame, places[2 * v + 1]);
      if ((isLeft[v] === front) === isBehind) continue;
      pen.moveTo(x, y);
      if (w < 0) pen.lineTo(x + 0.1, y);
      else pen.lineTo(pixelX(frame, places[2 * w]), pixelY(frame, places[2 * w + 1]));
    }
    pen.setLineDash(isBehind ? [2, 3] : []);
    pen.lineCap = 'round';
    pen.strokeStyle = CASING;
    pen.lineWidth = isBehind ? 2.8 : 5.2;
    pen.stroke();
    pen.strokeStyle = colour;
    pen.lineWidth = isBehind ? 1.4 : 3.2;
    pen.stroke();
  }
  pen.setLineDash([]);
}

/** A ring round the stitch that is pointed at; a broken one where it lies behind. */
export function drawSpotRing(pen: Pen, frame: SockFrame, { fabric, grid, isLeft, places }: FinishedSock, loop: number, looks: PageLooks, radius = 6): void {
  const host = grid.wrapHost[loop], v = fabric.loopVertex[host >= 0 ? host : loop];
  if (v < 0) return;
  pen.setLineDash((isLeft[v] === 1) === (frame.side === 'left') ? [] : [3, 3]);
  for (const [colour, thick] of [[looks.raised, 4.5], [looks.ink, 2]] as const) {
    pen.beginPath();
    pen.arc(pixelX(frame, places[2 * v]), pixelY(frame, places[2 * v + 1]), radius, 0, 2 * Math.PI);
    pen.strokeStyle = colour;
    pen.lineWidth = thick;
    pen.stroke();
  }
  pen.setLineDash([]);
}
