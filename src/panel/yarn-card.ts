import { sumOf, wholeParts } from '../base/whole-parts.ts';
import type { KnittedSock, LaidYarn, YarnParts, YarnUse } from '../pipeline/result.ts';
import { pageWords } from '../words/page-words.ts';
import { el, setText } from './dom.ts';
import { laidOf } from './laid-of.ts';
import type { LaidState, PageState } from './page-state.ts';
import { inFigures } from './units.ts';

export interface YarnCard { render(state: PageState): void }

/** How much of each yarn one sock takes: by the textbook's rule, and along its loops once a shape has come to rest. */
export function createYarnCard(host: HTMLElement): YarnCard {
  const words = pageWords().measures.yarn, body = el('tbody'), partsBody = el('tbody'), said = el('p', { class: 'yarn-said' });
  const head = (text: string): HTMLElement => el('th', { scope: 'col' }, text), pair = [words.byRule, words.alongLoops] as const;
  const group = (text: string): HTMLElement => el('th', { scope: 'colgroup', colspan: 2 }, text);
  const more = el('details', { class: 'yarn-more' }, el('summary', {}, words.more),
    el('table', { class: 'measures' }, el('thead', {}, el('tr', {}, head(words.metres), ...pair.map(head))), partsBody),
    ...words.why.map((why) => el('p', {}, why)));
  host.append(el('table', { class: 'measures' }, el('thead', {},
    el('tr', {}, el('td'), group(words.metres), group(words.grams)),
    el('tr', {}, head(words.forOne), ...pair.map(head), ...pair.map(head))), body), said, more);
  let drawn: KnittedSock | null = null, drawnLaid: LaidState | null = null;
  return {
    render: (state) => {
      const { knitted, settings: { pose } } = state, laid = laidOf(state);
      if (knitted === null) return;
      setText(said, laid === null ? (isAtRest(pose) ? words.waiting : words.choosePose) : difference(knitted, laid));
      if (knitted === drawn && laid === drawnLaid) return;
      drawn = knitted;
      drawnLaid = laid;
      body.replaceChildren(...drawNeeds(needsOf(knitted, laid?.yarns ?? null)));
      partsBody.replaceChildren(...drawParts(knitted, laid?.yarns ?? null));
    },
  };
}

const isAtRest = (pose: PageState['settings']['pose']): boolean => pose === 'flat' || pose === 'tube';

const metresOf = (yarns: readonly YarnUse[]): number => sumOf(yarns.map(({ metres }) => metres));

function difference({ yarn }: KnittedSock, { yarns, pose }: LaidState): string {
  const { poses, yarn: words } = pageWords().measures;
  return words.said(Math.round(100 * (metresOf(yarns) / metresOf(yarn) - 1)), poses[pose]);
}

type Amounts = readonly [rule: number, loops: number | null];

/** A yarn that comes in at several places is listed once. */
interface Need { readonly name: string; readonly colour: string; readonly rule: readonly YarnUse[]; readonly laid: readonly YarnUse[] }

/** A row for each yarn, and where there are several what they come to. */
function drawNeeds(needs: readonly Need[]): readonly HTMLElement[] {
  const sums = (of: 'rule' | 'laid', unit: 'metres' | 'grams'): number[] => wholeParts(needs.map((need) => sumOf(need[of].map((use) => use[unit]))));
  const isLaid = needs.some(({ laid }) => laid.length > 0);
  const columns = (['metres', 'grams'] as const).flatMap((unit) => [sums('rule', unit), isLaid ? sums('laid', unit) : null]);
  const row = (name: readonly (Node | string)[], take: (column: readonly number[]) => number): HTMLElement => (
    el('tr', {}, el('th', { scope: 'row', class: 'yarn-name' }, ...name), ...columns.map((column) => el('td', {}, column === null ? '–' : String(take(column)))))
  );
  const rows = needs.map(({ name, colour }, at) => {
    const swatch = el('span', { class: 'swatch', 'aria-hidden': 'true' });
    swatch.style.background = colour;
    return row([swatch, el('span', { dir: 'auto' }, name)], (column) => column[at]);
  });
  return needs.length < 2 ? rows : [...rows, row([pageWords().measures.yarn.together], sumOf)];
}

function needsOf({ yarn, plan }: KnittedSock, laid: readonly LaidYarn[] | null): Need[] {
  const needs: (Need & { readonly rule: YarnUse[]; readonly laid: YarnUse[] })[] = [];
  for (const [index, use] of yarn.entries()) {
    const { name } = use, colour = plan.yarns[index]?.colour ?? '#808080', along = laid?.[index];
    let need = needs.find((other) => other.name === name && other.colour === colour);
    if (need === undefined) needs.push(need = { name, colour, rule: [], laid: [] });
    need.rule.push(use);
    if (along !== undefined) need.laid.push(along);
  }
  return needs;
}

/** What becomes of all yarns together; rows that this sock has. */
function drawParts({ yarnParts, plan }: KnittedSock, laid: readonly LaidYarn[] | null): HTMLElement[] {
  const { parts: words } = pageWords().measures.yarn, lengths = sumOf((laid ?? []).map((yarn) => yarn.lengths));
  const amounts = (part: keyof YarnParts): Amounts => [sumOf(yarnParts.map((parts) => parts[part])), laid && sumOf(laid.map(({ parts }) => parts[part]))];
  const rows: readonly (readonly [string, Amounts])[] = [
    [words.loops, amounts('loops')], [words.wraps, amounts('wraps')], [words.castOn, amounts('castOn')], [words.seam, amounts('seam')],
    [plan.closing === 'graft' ? words.graft : words.bindOff, amounts('closing')], [words.tails(lengths), amounts('tails')],
  ];
  return rows.filter(([, [rule, loops]]) => rule > 0 || (loops ?? 0) > 0).map(([name, pair]) => (
    el('tr', {}, el('th', { scope: 'row' }, name), ...pair.map((metres) => el('td', {}, metres === null ? '–' : inFigures(metres.toFixed(1)))))
  ));
}
