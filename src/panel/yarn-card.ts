import type { KnittedSock } from '../pipeline/result.ts';
import { el } from './dom.ts';
import type { PageState } from './page-state.ts';

export interface YarnCard { render(state: PageState): void }

interface Need { readonly name: string; readonly colour: string; metres: number; grams: number }

/** How much of each yarn one sock takes. */
export function createYarnCard(host: HTMLElement): YarnCard {
  const body = el('tbody');
  host.append(el('table', { class: 'measures' }, el('thead', {}, el('tr', {},
    el('th', { scope: 'col' }, 'for one sock'), el('th', { scope: 'col' }, 'metres'), el('th', { scope: 'col' }, 'grams'))), body));
  let drawn: KnittedSock | null = null;
  return {
    render: ({ knitted }) => {
      if (knitted === null || knitted === drawn) return;
      drawn = knitted;
      body.replaceChildren(...needsOf(knitted).map(({ name, colour, metres, grams }) => {
        const swatch = el('span', { class: 'swatch', 'aria-hidden': 'true' });
        swatch.style.background = colour;
        return el('tr', {}, el('th', { scope: 'row', class: 'yarn-name' }, swatch, name), el('td', {}, metres.toFixed(0)), el('td', {}, grams.toFixed(0)));
      }));
    },
  };
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
