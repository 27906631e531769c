import { BED, LOOP, SECTION } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { HoveredLoop } from '../view/sock-view-types.ts';
import { pageWords } from '../words/page-words.ts';
import { el, setText } from './dom.ts';
import { lengthWords } from './map-words.ts';
import { formatPercent, inFigures, type LengthUnit } from './units.ts';

/** What is known of the cloth at a loop; null where it is not. */
export interface LoopReading {
  /** Shares of the size at rest. */
  readonly width: number;
  readonly length: number;
  readonly pressureMmHg: number | null;
  readonly gapMm: number | null;
  /** Against the first sock. */
  readonly longerMm: number | null;
  readonly widerMm: number | null;
}

/** A loop of a sock's grid. `name`: which of two socks it belongs to, null where there is one. */
export interface ReadLoop { readonly grid: StitchGrid; readonly reading: LoopReading | null; readonly name: string | null }

export interface LoopReadout { show(hovered: HoveredLoop | null, read: ReadLoop | null, lengthUnit: LengthUnit): void }

const SECTION_NAMES = Object.keys(SECTION) as (keyof typeof SECTION)[];
/** Pixels from the pointer, and from the picture's edge. */
const OFF_X = 14, OFF_Y = 16, MARGIN = 6;

/** Says beside the pointer which loop of the knitting it rests on, and what is known of the cloth there. */
export function createLoopReadout(host: HTMLElement): LoopReadout {
  const name = el('span', { class: 'loop-sock' }), place = el('span'), numbers = el('span', { class: 'loop-numbers' });
  const label = el('p', { class: 'loop-readout', hidden: true, 'aria-hidden': 'true' }, name, place, numbers);
  host.append(label);
  return {
    show: (hovered, read, lengthUnit) => {
      label.hidden = hovered === null || read === null;
      if (hovered === null || read === null) return;
      setText(name, read.name ?? '');
      setText(place, loopWords(read.grid, hovered.loop));
      setText(numbers, read.reading === null ? '' : readingWords(read.reading, lengthUnit));
      const box = host.getBoundingClientRect(), top = hovered.clientY - box.top;
      const x = Math.min(hovered.clientX - box.left + OFF_X, box.width - label.offsetWidth - MARGIN);
      const y = top + OFF_Y + label.offsetHeight + MARGIN <= box.height ? top + OFF_Y : top - OFF_Y - label.offsetHeight;
      label.style.translate = `${Math.max(MARGIN, x)}px ${y}px`;
    },
  };
}

/** `Heel, turning down: pass 63, needle 97 of the front bed, two loops knitted together`. */
export function loopWords(grid: StitchGrid, loop: number): string {
  const section = SECTION_NAMES.find((name) => SECTION[name] === grid.section[loop]);
  const pass = grid.kind[loop] === LOOP.castOn ? null : grid.pass[loop] ?? 0;
  const parents = (grid.parentStart[loop + 1] ?? 0) - (grid.parentStart[loop] ?? 0);
  const { stage: { loop: say }, passes: { sections } } = pageWords();
  return say.at(section === undefined ? say.loop : sections[section], pass, grid.needle[loop] ?? 0, grid.bed[loop] === BED.front ? 'front' : 'back', parents > 1);
}

/** `Stretch: width −28 %, length +10 %. Presses with 4 mmHg` or `Stands off by 3 mm`. */
export function readingWords({ width, length, pressureMmHg, gapMm, longerMm, widerMm }: LoopReading, lengthUnit: LengthUnit): string {
  const say = pageWords().stage.loop, sentences = [say.stretch(formatPercent(100 * width), formatPercent(100 * length))];
  if (gapMm !== null && gapMm >= 0.5) sentences.push(say.gap(lengthWords(gapMm, lengthUnit)));
  else if (pressureMmHg !== null) sentences.push(say.pressure(inFigures(pressureMmHg < 9.95 ? pressureMmHg.toFixed(1) : String(Math.round(pressureMmHg)))));
  if (longerMm !== null && widerMm !== null) {
    sentences.push(say.difference(lengthWords(longerMm, lengthUnit, true), lengthWords(widerMm, lengthUnit, true)));
  }
  return sentences.join('. ');
}
