import type { Derivation, Plan } from '../plan/plan-types.ts';
import { pageWords } from '../words/page-words.ts';
import { el, setText } from './dom.ts';
import type { PageState } from './page-state.ts';
import { inUnitsOf } from './problem-words.ts';
import { drawPassRibbon } from './pass-ribbon.ts';
import { inThousands } from './units.ts';
import { sumOf } from './yarn-words.ts';

/** One number of the strip and the words round it: `turned down to 12`. */
interface StripCount {
  readonly count: keyof Plan;
  readonly before: string;
  readonly after: string;
}

/** One part of the sock, in the order in which it is knitted. */
interface StripPart {
  readonly title: string;
  readonly counts: readonly StripCount[];
  /** What follows from the counts, small. */
  readonly detail: string;
}

export interface PlanStrip { render(state: PageState): void }

/** The sock as the knitter works through it, each number with its formula in reach. */
export function createPlanStrip(host: HTMLElement): PlanStrip {
  const ribbon = el('div', { class: 'strip-ribbon', 'aria-hidden': 'true' });
  const parts = el('ol', { class: 'strip-parts' });
  const formulas = el('div', { class: 'strip-formulas' });
  const details = el('details', { class: 'strip-details' }, el('summary', {}, pageWords().plan.allFormulas), formulas);
  const total = el('p', { class: 'strip-total' });
  host.append(ribbon, parts, el('div', { class: 'strip-foot' }, total, details));
  let drawn = '';
  let unrolled: PageState['knitted'] = null;
  return {
    render: (state) => {
      const { planned, knitted } = state;
      host.classList.toggle('is-kept', state.problems.length > 0);
      if (planned === null) return;
      const { lengthUnit } = state.settings;
      const key = JSON.stringify([planned.plan, planned.derivations, lengthUnit]);
      if (key !== drawn) {
        drawn = key;
        const derivations = planned.derivations.map((each) => ({ ...each, formula: inUnitsOf(each.formula, lengthUnit) }));
        const tells = tipReader(derivations);
        replaceParts(parts, stripParts(planned.plan).map((part) => drawPart(part, planned.plan, tells)));
        formulas.replaceChildren(drawFormulas(derivations));
      }
      setText(total, totalWords(planned.plan, knitted));
      if (knitted === null || knitted === unrolled) return;
      unrolled = knitted;
      ribbon.replaceChildren(...drawPassRibbon(knitted.trace, knitted.plan.yarns));
    },
  };
}

/** New parts in place of old ones; the focus stays on the number that had it. */
function replaceParts(list: HTMLElement, parts: readonly HTMLElement[]): void {
  const focused = document.activeElement instanceof HTMLElement && list.contains(document.activeElement) ? document.activeElement.dataset['count'] : undefined;
  list.replaceChildren(...parts);
  if (focused !== undefined) list.querySelector<HTMLElement>(`[data-count="${focused}"]`)?.focus();
}

function stripParts(plan: Plan): StripPart[] {
  const words = pageWords().plan, { parts, stitches, passes } = words, isRib = plan.legKind === 'flat-rib';
  const rounds = (ofPasses: number): string => words.rounds(ofPasses / 2);
  return [
    { title: parts.castOn, counts: [at('stitches', '', stitches)], detail: isRib ? words.castOnRib : words.castOnRound },
    { title: parts.leg, counts: [at('legPasses', '', passes)], detail: isRib ? words.ribRows(plan.plainPasses) : rounds(plan.legPasses) },
    { title: parts.ankle, counts: [at('anklePasses', '', passes)], detail: rounds(plan.anklePasses) },
    {
      title: parts.heel, counts: [at('heelStitches', '', stitches), at('turnDownWidth', words.turnDownTo, ''), at('heelPasses', '', passes)],
      detail: `${heelWords(plan)}${words.heelTurned(plan.heelStitches - plan.turnDownWidth, plan.plateauPasses, plan.heelBed)}`,
    },
    { title: parts.foot, counts: [at('footPasses', '', passes)], detail: rounds(plan.footPasses) },
    toePart(plan),
  ];
}

/** Stitches moved to the heel's bed. */
function heelWords({ heelStitches, bedStitches }: Plan): string {
  return heelStitches === bedStitches ? '' : pageWords().plan.moved((heelStitches - bedStitches) / 2);
}

function toePart(plan: Plan): StripPart {
  const words = pageWords().plan, title = words.parts.toe;
  const closed = (stitches: number): string => (plan.closing === 'graft' ? words.graft(stitches) : words.bindOff(stitches));
  if (plan.toeKind === 'short-row') {
    return {
      title, counts: [at('toeTipStitches', words.turnDownTo, ''), at('toePasses', '', words.passes)],
      detail: words.toeTurned(plan.bedStitches - plan.toeTipStitches, closed(plan.bedStitches)),
    };
  }
  return {
    title, counts: [at('toeDecreases', '', words.decreases(plan.toeDecreases)), at('toePasses', '', words.passes), at('toeTipStitches', words.to, words.aBed)],
    detail: `${toeWords(plan)}; ${closed(plan.toeTipStitches)}`,
  };
}

/** `4 stitches every 4 passes`; of a toe with several rates `every 4 passes 6 times, every 2 passes 5 times`; then how many of the decreases are on one side. */
export function toeWords({ toeSteps, toeSlantStitches, passesPerDecrease }: Pick<Plan, 'toeSteps' | 'toeSlantStitches' | 'passesPerDecrease'>): string {
  const rates: { passes: number; times: number }[] = [], { toeRate, toeOneRate, toeSlant } = pageWords().plan;
  toeSteps.forEach((step, i) => {
    // The last decrease is followed by one round, whatever its rate.
    const rate = rates.at(-1), isLast = i === toeSteps.length - 1;
    if (rate !== undefined && (step.passes === rate.passes || isLast)) rate.times++;
    else rates.push({ passes: step.passes, times: 1 });
  });
  const words = rates.length > 1 ? rates.map(({ passes, times }) => toeRate(passes, times)).join(', ') : toeOneRate(toeSteps.length > 1 ? rates[0].passes : passesPerDecrease);
  return toeSlantStitches === 0 ? words : `${words}; ${toeSlant(toeSlantStitches)}`;
}

function at(count: keyof Plan, before: string, after: string): StripCount {
  return { count, before, after };
}

type TipReader = (count: keyof Plan) => Derivation | null;

function tipReader(derivations: readonly Derivation[]): TipReader {
  return (count) => derivations.find((derivation) => derivation.count === count) ?? null;
}

function drawPart(part: StripPart, plan: Plan, tells: TipReader): HTMLElement {
  const counts = part.counts.map(({ count, before, after }) => {
    const number = drawCount(count, plan, part.title, tells);
    return el('span', { class: 'strip-count' }, before === '' ? null : `${before} `, number, after === '' ? null : ` ${after}`);
  });
  return el('li', { class: 'strip-part' },
    el('h3', {}, part.title), el('p', { class: 'strip-counts' }, ...counts), el('p', { class: 'strip-detail' }, part.detail));
}

/** A number that shows how it was found when it is pointed at or has the focus. */
function drawCount(count: keyof Plan, plan: Plan, title: string, tells: TipReader): HTMLElement {
  const value = inThousands(Number(plan[count]));
  const derivation = tells(count);
  if (derivation === null) return el('strong', {}, value);
  const id = `formula-${count}`;
  const words = formulaWords(derivation);
  return el('span', { class: 'tip-holder' },
    el('button', { type: 'button', class: derivation.isFixedByHand ? 'strip-number is-by-hand' : 'strip-number', 'aria-describedby': id, 'aria-label': `${pageWords().plan.counts[count] ?? title}: ${value}`, 'data-count': count }, value),
    el('span', { class: 'tip', role: 'tooltip', id }, words));
}

/** How a count was found; of one fixed by hand, what it would have come from where that is known. */
function formulaWords({ formula, isFixedByHand }: Pick<Derivation, 'formula' | 'isFixedByHand'>): string {
  return isFixedByHand && !formula.includes('by hand') ? pageWords().plan.byHand(formula) : formula;
}

function drawFormulas(derivations: readonly Derivation[]): HTMLElement {
  return el('dl', {}, ...derivations.flatMap(({ count, value, formula, isFixedByHand }) => [
    el('dt', {}, `${pageWords().plan.counts[count] ?? count} ${value}`),
    el('dd', {}, formulaWords({ formula, isFixedByHand })),
  ]));
}

function totalWords(plan: Plan, knitted: PageState['knitted']): string {
  const passes = plan.legPasses + plan.plainPasses + plan.anklePasses + plan.heelPasses + plan.footPasses + plan.toePasses;
  const { total, totalKnitted } = pageWords().plan, words = total(passes);
  if (knitted === null) return words;
  const grams = sumOf(knitted.yarn.map((use) => use.grams));
  return totalKnitted(words, knitted.trace.loops, Math.round(grams));
}
