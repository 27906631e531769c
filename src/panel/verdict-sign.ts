import type { FitVerdict } from '../measure/fit-answer.ts';

/** What a sign says to those who do not see it. */
export const SIGN_WORDS: Readonly<Record<FitVerdict, string>> = { good: 'Good', mind: 'To mind', poor: 'To change' };

/** Told apart by their outline: a round with a tick, a triangle with a stroke, a square with a cross. */
const SIGNS: Readonly<Record<FitVerdict, string>> = {
  good: '<circle cx="10" cy="10" r="8.5"/><path d="M6 10.4l2.8 2.8L14.2 7"/>',
  mind: '<path d="M10 2.2L18.6 17.4H1.4Z"/><path d="M10 8v4.2M10 14.8v.2"/>',
  poor: '<rect x="2" y="2" width="16" height="16" rx="3"/><path d="M6.5 6.5l7 7M13.5 6.5l-7 7"/>',
};

export function drawSign(verdict: FitVerdict): SVGSVGElement {
  const sign = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  for (const [name, value] of [['viewBox', '0 0 20 20'], ['class', 'verdict-sign'], ['aria-hidden', 'true'], ['data-verdict', verdict]] as const) sign.setAttribute(name, value);
  sign.innerHTML = SIGNS[verdict];
  return sign;
}
