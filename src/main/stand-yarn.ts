import type { YarnAnswer, YarnHooks } from '../panel/stand-yarn.ts';
import { formatLength } from '../panel/units.ts';
import type { PlannedYarn } from '../plan/plan-types.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { findLongestLeg, firstPlaces } from '../sheet/longest-leg.ts';
import { findYarnLeft, isLegKnitted } from '../sheet/yarn-left.ts';
import { pageWords } from '../words/page-words.ts';
import { takeLeg } from './stand-answers.ts';
import type { SheetTools } from './stand-sheets.ts';

/** A yarn to weigh, and where it stands in the plan. */
interface Ball { readonly name: string; readonly metresPer100g: number; readonly at: number }

/** Each yarn once, where it comes in first; two colours of one name are told apart by their colour. */
function ballsOf(yarns: readonly PlannedYarn[]): Ball[] {
  const firsts = firstPlaces(yarns), balls = yarns.map((yarn, at) => ({ ...yarn, at })).filter(({ at }) => firsts[at] === at);
  return balls.map(({ name, colour, metresPer100g, at }) => ({ name: balls.some((other) => other.at !== at && other.name === name) ? `${name} ${colour}` : name, metresPer100g, at }));
}

const grams = ({ metresPer100g }: Ball, metres: number): number => Math.ceil(100 * metres / metresPer100g);

/** What each ball must have, the last sentence of those that were not weighed. */
function sayNeeds(balls: readonly Ball[], need: readonly number[], metres: readonly (number | null)[]): { readonly list: string; readonly notWeighed: readonly string[] } {
  const { hand: told } = pageWords().stand, taken = balls.filter(({ at }) => (need[at] ?? 0) > 0), names = taken.filter(({ at }) => (metres[at] ?? null) === null).map(({ name }) => name);
  return { list: taken.map((ball) => told.took(ball.name, grams(ball, need[ball.at]), Math.ceil(need[ball.at]))).join(', '), notWeighed: names.length === 0 ? [] : [told.notWeighed(names.join(', '))] };
}

/** Whether what is left in hand lasts from the place on, the leg being knitted. */
function answerRest(balls: readonly Ball[], need: readonly number[], metres: readonly (number | null)[], margin: number, socks: number): YarnAnswer {
  const { hand: told } = pageWords().stand, { list, notWeighed } = sayNeeds(balls, need, metres);
  if (list === '') return { words: [told.legKnitted, told.nothingLeft], take: null };
  const judged = balls.flatMap((ball) => {
    const had = metres[ball.at] ?? null, short = (need[ball.at] ?? 0) / (1 - margin) - (had ?? 0);
    if (had === null || need[ball.at] === 0) return [];
    return [short <= 0 ? told.lasts(ball.name) : told.short(ball.name, grams(ball, short), Math.ceil(short))];
  });
  return { words: [told.legKnitted, ...judged, told.restTakes(list, Math.round(100 * margin), socks), ...notWeighed, told.honest], take: null };
}

/** What the sheet of the yarn in hand asks of the knitting under way, and does to it. */
export function createYarnHooks({ table, changed, deskOf, store }: SheetTools, yarnsOf: () => readonly PlannedYarn[], legPassesOf: () => number, panelFile: () => SockFile | null): YarnHooks {
  const words = pageWords(), told = words.stand.hand;
  const socks = (): number => (table.place().sock === 1 ? 2 : 1), long = (mm: number): string => formatLength(mm, store.state().settings.lengthUnit);
  const isKnitted = (): boolean => isLegKnitted({ legPasses: legPassesOf() }, table.place());
  return {
    socks, isLegKnitted: isKnitted,
    yarns: () => { const yarns = yarnsOf(), balls = ballsOf(yarns); return yarns.map((_, at) => balls.find((ball) => ball.at === at) ?? null); },
    find: (metres, margin) => {
      const place = table.place(), balls = ballsOf(yarnsOf());
      if (isKnitted()) return answerRest(balls, findYarnLeft(place), metres, margin, socks());
      const { fit, problems } = findLongestLeg(place.file, { metres, socks: socks(), margin }, words);
      if (fit === null) return { words: problems.map(({ message }) => message), take: null };
      const { list, notWeighed } = sayNeeds(balls, fit.metres, metres);
      return {
        words: [told.found(long(fit.legMm), fit.legPasses), told.takes(list, Math.round(100 * margin), socks()), ...notWeighed, told.honest],
        take: () => {
          const taken = takeLeg(place, fit), isPanels = JSON.stringify(panelFile()) === JSON.stringify(place.file);
          if (!('place' in taken)) return taken;
          table.change(taken.place);
          if (isPanels) deskOf().propose(taken.place.file, null);
          changed(taken.value === fit.value ? told.planned : told.shorter(fit.field === 'leg.lengthMm' ? long(taken.value) : String(taken.value)));
          return null;
        },
      };
    },
  };
}
