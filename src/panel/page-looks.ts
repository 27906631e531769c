import type { BedLooks } from './bed-drawing.ts';

/** The page's colours, for drawings on a canvas. */
export type PageLooks = Omit<BedLooks, 'yarns'> & { readonly card: string };

let read: PageLooks | null = null, theme = '';

/** Reads the style sheet once a theme. */
export function readLooks(): PageLooks {
  const now = document.documentElement.dataset['theme'] ?? '';
  if (read !== null && now === theme) return read;
  theme = now;
  const style = getComputedStyle(document.documentElement), colour = (name: string): string => style.getPropertyValue(`--${name}`).trim();
  read = {
    ink: colour('ink'), soft: colour('soft'), line: colour('line'), field: colour('field'), raised: colour('raised'), card: colour('card'),
    accent: colour('accent'), onAccent: colour('on-accent'), font: colour('sans'),
  };
  return read;
}
