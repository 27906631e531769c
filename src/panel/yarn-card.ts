import type { KnittedSock } from '../pipeline/result.ts';
import { pageWords } from '../words/page-words.ts';
import { el } from './dom.ts';
import type { PageState } from './page-state.ts';
import { sumOf, wholeParts } from './yarn-words.ts';

export interface YarnCard { render(state: PageState): void }

interface Need { readonly name: string; readonly colour: string; metres: number; grams: number }

/** How much of each yarn one sock takes. */
export function createYarnCard(host: HTMLElement): YarnCard {
  const body = el('tbody'), words = pageWords().measures.yarn;
  host.append(el('table', { class: 'measures' }, el('thead', {}, el('tr', {},
    el('th', { scope: 'col' }, words.forOne), el('th', { scope: 'col' }, words.metres), el('th', { scope: 'col' }, words.grams))), body));
  let drawn: KnittedSock | null = null;
  return {
    render: ({ knitted }) => {
      if (knitted === null || knitted === drawn) return;
      drawn = knitted;
      body.replaceChildren(...drawNeeds(needsOf(knitted)));
    },
  };
}

/** A row for each yarn, and where there are several what they come to. */
function drawNeeds(needs: readonly Need[]): readonly HTMLElement[] {
  const metres = wholeParts(needs.map((need) => need.metres)), grams = wholeParts(needs.map((need) => need.grams));
  const row = (name: readonly (Node | string)[], ofMetres: number, ofGrams: number): HTMLElement => (
    el('tr', {}, el('th', { scope: 'row', class: 'yarn-name' }, ...name), el('td', {}, String(ofMetres)), el('td', {}, String(ofGrams)))
  );
  const rows = needs.map(({ name, colour }, at) => {
    const swatch = el('span', { class: 'swatch', 'aria-hidden': 'true' });
    swatch.style.background = colour;
    return row([swatch, name], metres[at], grams[at]);
  });
  return needs.length < 2 ? rows : [...rows, row([pageWords().measures.yarn.together], sumOf(metres), sumOf(grams))];
}

/** A yarn that comes in at several places is listed once. */
function needsOf({ yarn, plan }: KnittedSock): Need[] {
  const needs: Need[] = [];
  for (const [index, { name, metres, grams }] of yarn.entries()) {
    const colour = plan.yarns[index]?.colour ?? '#808080';
    const same = needs.find((need) => need.name === name && need.colour === colour);
    if (same === undefined) needs.push({ name, colour, metres, grams });
    else { same.metres += metres; same.grams += grams; }
  }
  return needs;
}
