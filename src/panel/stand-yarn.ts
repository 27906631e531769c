import { pageWords } from '../words/page-words.ts';
import { button, el } from './dom.ts';
import { createStandSheet, standChoice, standNumber } from './stand-fields.ts';

export interface YarnAnswer {
  readonly words: readonly string[];
  /** Plans the leg that was found; null where none was. */
  readonly take: (() => readonly string[] | null) | null;
}

export interface YarnHooks {
  /** How many are still to knit. */
  readonly socks: () => number;
  /** Then the question is whether the yarn left lasts for the rest. */
  readonly isLegKnitted: () => boolean;
  /** In the plan's order; one that is weighed with an earlier one is null. */
  readonly yarns: () => readonly ({ readonly name: string; readonly metresPer100g: number } | null)[];
  /** Metres of each yarn, null where it was not weighed; the margin is a share. */
  readonly find: (metres: readonly (number | null)[], margin: number) => YarnAnswer;
}

/** Yarn kept back for what the estimate does not know, in percent; the first is the usual one, `chosen by eye`. */
const MARGINS = ['10', '5', '15', '20', '0'] as const;

/** Yarn weighed for a pair, to the longest leg that it allows. */
export function createStandYarn(hooks: YarnHooks): { open(): void } {
  const { hand: told } = pageWords().stand, dialog = createStandSheet('stand-yarn', told.title);
  let unit: 'grams' | 'metres' = 'grams', margin: typeof MARGINS[number] = MARGINS[0];
  const answer = el('div', { class: 'stand-answer', role: 'status', tabindex: -1 });
  const unitChoice = standChoice(told.unit, [['grams', told.units.grams], ['metres', told.units.metres]], (chosen) => { unit = chosen; });
  const marginChoice = standChoice(told.margin, MARGINS.map((share) => [share, `${share} %`] as const), (chosen) => { margin = chosen; });
  return {
    open: () => {
      const yarns = hooks.yarns(), isKnitted = hooks.isLegKnitted(), about = isKnitted ? told.aboutRest(hooks.socks()) : told.about(hooks.socks());
      const fields = yarns.map((yarn) => (yarn === null ? null : standNumber(`${told.inHand(yarn.name)} (${told.per(yarn.metresPer100g)})`, { placeholder: told.blank })));
      const find = (): void => {
        const unread = yarns.filter((_, place) => fields[place]?.input.value.trim() !== '' && fields[place]?.value() === null);
        if (unread.length > 0) { answer.replaceChildren(...unread.map((yarn) => el('p', { dir: 'auto' }, told.noNumber(yarn?.name ?? '')))); return; }
        const metres = fields.map((field, place) => {
          const value = field?.value() ?? null;
          return value === null || unit === 'metres' ? value : value * (yarns[place]?.metresPer100g ?? 0) / 100;
        });
        if (metres.every((one) => one === null)) { answer.replaceChildren(el('p', {}, told.none)); return; }
        const { words, take } = hooks.find(metres, Number(margin) / 100);
        answer.replaceChildren(...words.map((word) => el('p', { dir: 'auto' }, word)), ...(take === null ? [] : [button(told.plan, { class: 'stand-button is-main' }, () => {
          const refused = take();
          if (refused === null) dialog.close();
          else answer.append(...refused.map((word) => el('p', { dir: 'auto' }, word)));
        })]));
      };
      answer.replaceChildren();
      const form = el('form', {}, ...fields.map((field) => field?.element ?? null), unitChoice.element, marginChoice.element, el('button', { class: 'stand-button is-main', type: 'submit' }, isKnitted ? told.findRest : told.find));
      form.addEventListener('submit', (event) => {
        event.preventDefault();
        find();
        answer.focus({ preventScroll: true });
        answer.scrollIntoView({ block: 'nearest' });
      });
      dialog.body.replaceChildren(el('p', {}, about), form, answer);
      dialog.open();
      fields[0]?.input.focus();
    },
  };
}
