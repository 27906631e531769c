import { BED, LOOP, SECTION } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { HoveredLoop } from '../view/sock-view-types.ts';
import { el, setText } from './dom.ts';
import { formatPercent } from './units.ts';

/** Shares of the size at rest. */
export interface LoopStretch { readonly width: number; readonly length: number }

export interface LoopReadout {
  /** `stretch` is that of the hovered loop, null where it is not known. */
  show(grid: StitchGrid | null, hovered: HoveredLoop | null, stretch: LoopStretch | null): void;
}

/** What a part of the sock is called in a heading. */
export const SECTION_WORDS: Readonly<Record<keyof typeof SECTION, string>> = {
  'cast-on': 'Cast-on', leg: 'Leg', plain: 'Plain rows', ankle: 'Ankle', 'heel-in': 'Heel, turning down', 'heel-level': 'Heel, level',
  'heel-out': 'Heel, turning out', foot: 'Foot', toe: 'Toe', 'toe-in': 'Toe, turning down', 'toe-out': 'Toe, turning out', closing: 'Closing',
};
const SECTION_NAMES = Object.keys(SECTION) as (keyof typeof SECTION)[];

/** Says beside the pointer which loop of the knitting it rests on, and how far the cloth is stretched there. */
export function createLoopReadout(host: HTMLElement): LoopReadout {
  const place = el('span'), numbers = el('span', { class: 'loop-stretch' });
  const label = el('p', { class: 'loop-readout', hidden: true, 'aria-hidden': 'true' }, place, numbers);
  host.append(label);
  return {
    show: (grid, hovered, stretch) => {
      label.hidden = grid === null || hovered === null;
      if (grid === null || hovered === null) return;
      setText(place, loopWords(grid, hovered.loop));
      setText(numbers, stretch === null ? '' : stretchWords(stretch));
      const box = host.getBoundingClientRect();
      const x = Math.min(hovered.clientX - box.left + 14, box.width - label.offsetWidth - 6);
      label.style.translate = `${Math.max(6, x)}px ${hovered.clientY - box.top + 16}px`;
    },
  };
}

/** `Heel, turning down: pass 63, needle 97 of the front bed, two loops knitted together`. */
export function loopWords(grid: StitchGrid, loop: number): string {
  const section = SECTION_NAMES.find((name) => SECTION[name] === grid.section[loop]);
  const place = `needle ${grid.needle[loop] ?? 0} of the ${grid.bed[loop] === BED.front ? 'front' : 'back'} bed`;
  const pass = grid.kind[loop] === LOOP.castOn ? '' : `pass ${grid.pass[loop] ?? 0}, `;
  const parents = (grid.parentStart[loop + 1] ?? 0) - (grid.parentStart[loop] ?? 0);
  const extra = parents > 1 ? ', two loops knitted together' : '';
  return `${section === undefined ? 'Loop' : SECTION_WORDS[section]}: ${pass}${place}${extra}`;
}

/** `Width −28 %, length +10 % of rest`. */
export function stretchWords({ width, length }: LoopStretch): string {
  return `Stretch: width ${formatPercent(100 * width)} %, length ${formatPercent(100 * length)} %`;
}
