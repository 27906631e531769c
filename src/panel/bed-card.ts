import { BED, LOOP, NEEDLE } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { NeedleRef } from '../plan/step.ts';
import { pageWords } from '../words/page-words.ts';
import { drawBeds, type BedShow } from './bed-drawing.ts';
import { drawBedLegend } from './bed-legend.ts';
import type { BedNeedle, BedScene } from './bed-model.ts';
import { BED_HEIGHT, type BedPlaces, needleUnder, placeBeds, xOf } from './bed-places.ts';
import { openPen } from './canvas-pen.ts';
import { el, setAttributes, setText } from './dom.ts';
import type { Spot } from './page-state.ts';
import { readLooks } from './page-looks.ts';
import { sectionOfLoop } from './section-of-loop.ts';

/** What the drawing shows besides its scene. */
export interface BedView {
  readonly grid: StitchGrid;
  readonly yarnColours: readonly string[];
  readonly labelOf: (needle: number) => string;
  readonly needlesPerBed: number;
  readonly spot: Spot | null;
}

export interface BedCard {
  render(scene: BedScene, view: BedView): void;
  /** Draws the carriage of the scene so far on its way, 0 to 1. */
  setWay(way: number): void;
  dispose(): void;
}

export interface BedHooks {
  readonly point: (spot: Spot | null) => void;
  /** A needle was clicked, or Enter pressed on it: the stitch that hangs there stays picked. */
  readonly pick: (loop: number) => void;
}

/** The beds from above, drawn anew at every stop; a needle that is pointed at, or chosen by arrow keys, is told in words under it. */
export function createBedCard(host: HTMLElement, hooks: BedHooks): BedCard {
  const words = pageWords().timeline;
  const canvas = el('canvas', { class: 'beds-canvas', tabindex: 0, role: 'slider', 'aria-label': words.needle, 'aria-description': words.needleHelp, title: words.needleHelp });
  const scroller = el('div', { class: 'beds-scroll' }, canvas), readout = el('p', { class: 'beds-readout' });
  host.append(scroller, el('div', { class: 'beds-foot' }, readout, drawBedLegend()));
  let drawn: { readonly scene: BedScene; readonly view: BedView } | null = null;
  let places: BedPlaces | null = null, way = 1, cursor: NeedleRef | null = null, isPointed = false, span = '';

  const draw = (): void => {
    const pen = openPen(canvas);
    if (drawn === null || pen === null) return;
    const { scene, view } = drawn;
    places = placeBeds(scroller.clientWidth, scene);
    fitCanvas(canvas, places);
    if (span !== (span = `${scene.first} ${scene.last} ${places.width}`)) scroller.scrollLeft = (places.width - scroller.clientWidth) / 2;
    const ratio = devicePixelRatio;
    pen.setTransform(ratio, 0, 0, ratio, 0, 0);
    drawBeds(pen, places, scene, showOf(view, way, isPointed ? cursor : spotNeedle(scene, view)));
    setText(readout, readoutWords(scene, view, isPointed ? cursor : null));
    tellNeedle(canvas, scene, view, cursor ?? { bed: 'front', needle: scene.first });
  };
  const point = (at: NeedleRef | null): void => {
    if (at?.bed === cursor?.bed && at?.needle === cursor?.needle && isPointed === (at !== null)) return;
    isPointed = at !== null;
    if (at !== null) cursor = at;
    const loop = drawn === null ? -1 : findNeedle(drawn.scene, at)?.loop ?? -1;
    hooks.point(loop < 0 ? null : { loop, from: 'beds' });
    draw();
  };
  canvas.addEventListener('pointermove', ({ offsetX, offsetY }) => { if (places !== null) point(needleUnder(places, offsetX, offsetY)); });
  canvas.addEventListener('pointerleave', () => { point(null); });
  canvas.addEventListener('focus', () => { if (drawn !== null && canvas.matches(':focus-visible')) point(startOf(drawn.scene, cursor)); });
  canvas.addEventListener('blur', () => { point(null); });
  canvas.addEventListener('keydown', (event) => {
    const next = drawn === null || event.ctrlKey || event.metaKey || event.altKey ? null : needleOfKey(event.key, startOf(drawn.scene, cursor), drawn.scene);
    if (next === null || places === null) return;
    event.preventDefault();
    event.stopPropagation();
    point(next);
    scroller.scrollLeft = Math.min(Math.max(scroller.scrollLeft, xOf(places, next.needle) + 80 - scroller.clientWidth), xOf(places, next.needle) - 80);
  });
  listenToPicks(canvas, (at) => {
    const needle = drawn === null ? null : findNeedle(drawn.scene, at === null ? startOf(drawn.scene, cursor) : needleUnderAt(places, at));
    if (needle !== null && needle.loop >= 0) hooks.pick(needle.loop);
  });
  const observer = new ResizeObserver(draw);
  observer.observe(scroller);
  return {
    render: (scene, view) => {
      drawn = { scene, view };
      draw();
    },
    setWay: (next) => {
      way = next;
      draw();
    },
    dispose: () => { observer.disconnect(); },
  };
}

/** Hears a click on a place of the drawing, or Enter on the needle where the keys are. */
function listenToPicks(canvas: HTMLCanvasElement, pick: (at: { readonly offsetX: number; readonly offsetY: number } | null) => void): void {
  canvas.addEventListener('click', ({ offsetX, offsetY }) => { pick({ offsetX, offsetY }); });
  canvas.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter' || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    pick(null);
  });
}

function needleUnderAt(places: BedPlaces | null, { offsetX, offsetY }: { readonly offsetX: number; readonly offsetY: number }): NeedleRef | null {
  return places === null ? null : needleUnder(places, offsetX, offsetY);
}

/** Of the needle pointed at here, else of a stitch that is pointed at elsewhere, or picked. */
function readoutWords(scene: BedScene, view: BedView, at: NeedleRef | null): string {
  const needle = findNeedle(scene, at);
  if (needle !== null) return needleWords(needle, view);
  return at === null && view.spot !== null ? spotWords(scene, view, view.spot) : '';
}

function tellNeedle(canvas: HTMLCanvasElement, scene: BedScene, view: BedView, chosen: NeedleRef): void {
  const focused = findNeedle(scene, chosen);
  setAttributes(canvas, { 'aria-valuemin': scene.first, 'aria-valuemax': scene.last, 'aria-valuenow': chosen.needle, 'aria-valuetext': focused === null ? '' : needleWords(focused, view) });
}

function fitCanvas(canvas: HTMLCanvasElement, { width, height }: BedPlaces): void {
  const [w, h] = [Math.round(width * devicePixelRatio), Math.round(height * devicePixelRatio)];
  if (canvas.width === w && canvas.height === h) return;
  canvas.width = w;
  canvas.height = h;
  canvas.style.width = `${width}px`;
  canvas.style.height = `${BED_HEIGHT}px`;
}

function showOf({ grid, yarnColours, labelOf, needlesPerBed }: BedView, way: number, spot: NeedleRef | null): BedShow {
  const { bed, side } = pageWords().timeline;
  return { looks: { ...readLooks(), yarns: yarnColours }, yarnOf: (loop) => grid.yarn[loop], bedNames: bed, sideNames: side, labelOf, needlesPerBed, way, spot };
}

/** Where a stitch that is pointed at elsewhere hangs, or the needle it was made on. */
function spotNeedle({ needles }: BedScene, { spot, grid }: BedView): NeedleRef | null {
  if (spot === null) return null;
  const hanging = needles.find(({ loop }) => loop === spot.loop);
  return hanging ?? { bed: grid.bed[spot.loop] === BED.front ? 'front' : 'back', needle: grid.needle[spot.loop] };
}

function findNeedle({ needles }: BedScene, at: NeedleRef | null): BedNeedle | null {
  return at === null ? null : needles.find(({ bed, needle }) => bed === at.bed && needle === at.needle) ?? null;
}

/** Where the keys begin: at the needle chosen before, else at the first one that the pass knits. */
function startOf({ course, first, last }: BedScene, cursor: NeedleRef | null): NeedleRef {
  const isShown = cursor !== null && cursor.needle >= first && cursor.needle <= last;
  return isShown ? cursor : course.at(0) ?? { bed: 'front', needle: first };
}

/** Null for a key that leads nowhere. */
function needleOfKey(key: string, { bed, needle }: NeedleRef, { first, last }: BedScene): NeedleRef | null {
  switch (key) {
    case 'ArrowLeft': return { bed, needle: Math.max(first, needle - 1) };
    case 'ArrowRight': return { bed, needle: Math.min(last, needle + 1) };
    case 'ArrowUp': return { bed: 'back', needle };
    case 'ArrowDown': return { bed: 'front', needle };
    case 'Home': return { bed, needle: first };
    case 'End': return { bed, needle: last };
    default: return null;
  }
}

/** Of a stitch that is pointed at elsewhere: its needle if it hangs, else where it was or will be knitted. */
function spotWords(scene: BedScene, view: BedView, { loop }: Spot): string {
  const hanging = scene.needles.find((at) => at.loop === loop);
  if (hanging !== undefined) return needleWords(hanging, view);
  const { timeline: words } = pageWords();
  return words.madeOn(loopText(view.grid, loop), view.labelOf(view.grid.needle[loop]), words.bed[view.grid.bed[loop] === BED.front ? 'front' : 'back']);
}

function loopText(grid: StitchGrid, loop: number): string {
  const { timeline: words, passes } = pageWords();
  return words.loopOf(grid.kind[loop] === LOOP.castOn ? 0 : grid.pass[loop], passes.sections[sectionOfLoop(grid, loop)]);
}

/** `Needle R12, front bed: held, put on hold here, one wrap; stitch of pass 61, heel in`. */
export function needleWords(at: BedNeedle, { grid, labelOf }: Pick<BedView, 'grid' | 'labelOf'>): string {
  const { timeline: words } = pageWords();
  const state = at.state === NEEDLE.held ? words.states.held : at.state === NEEDLE.working ? words.states.working : words.states.empty;
  const facts = [
    state, at.isNowHeld ? words.nowHeld : '', at.isReturned ? words.returned : '', at.isWrapped ? words.wrapped : '',
    at.wraps > 0 ? words.wraps(at.wraps) : '', at.stitches > 1 ? words.stitches(at.stitches) : '',
  ].filter((fact) => fact !== '');
  const place = `${words.needleAt(labelOf(at.needle), words.bed[at.bed])}: ${facts.join(', ')}`;
  if (at.loop < 0) return place;
  return `${place}; ${loopText(grid, at.loop)}`;
}

