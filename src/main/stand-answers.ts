import type { Problem } from '../base/problem.ts';
import { NEEDLE } from '../machine/codes.ts';
import type { ChangeShow } from '../panel/stand-change.ts';
import type { MistakeAnswer, MistakeEntry } from '../panel/stand-mistake.ts';
import { told } from '../panel/told.ts';
import type { LengthUnit } from '../panel/units.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { planSock } from '../plan/plan-sock.ts';
import { withField } from '../plan/with-field.ts';
import { countDiffering, findPasses, gatherPasses, UNSEEN } from '../sheet/find-passes.ts';
import type { PassMatch } from '../sheet/find-passes.ts';
import { nameNeedles, statesAt } from '../sheet/hand-moves.ts';
import type { KnitPlace } from '../sheet/knit-place.ts';
import { isBegun } from '../sheet/knit-place.ts';
import type { LegFit } from '../sheet/longest-leg.ts';
import { planAnew } from '../sheet/plan-anew.ts';
import type { NeedleNumbers } from '../sheet/needle-label.ts';
import { pageWords } from '../words/page-words.ts';
import { nameField, sayValue } from './name-field.ts';
import type { StandWork } from './stand-show.ts';

/** So many passes are offered where several agree equally well, and where none agrees. */
const MOST_ANSWERS = 3;
/** More lines than this of what differs are only counted. */
const MOST_LINES = 6;
/** A needle or two may have slipped; more means another pass. Chosen by eye. */
const FEW_NEEDLES = 4;

/** The stop that comes next if a match is where the work stands. */
const stopOf = ({ pass, moment }: PassMatch): number => (moment === 'ready' ? pass : pass + 1);

/** Which passes her needles agree with, in words, and what to do. */
export function answerMistake(entry: MistakeEntry, place: KnitPlace, work: StandWork, numbers: NeedleNumbers, set: (stop: number) => void): MistakeAnswer[] {
  const { mistake: told } = pageWords().stand, matches = findPasses(work.record.trace, entry, Math.max(0, place.stop - 1));
  const exact = matches.filter((match) => countDiffering(match) === 0);
  const named = entry.states.filter((state) => state !== UNSEEN).length;
  const shown = (exact.length > 0 ? exact : matches).slice(0, MOST_ANSWERS);
  return shown.map((match, i) => {
    const stop = stopOf(match), away = stop - place.stop, differ = countDiffering(match), words: string[] = [];
    if (differ === 0) words.push(told.exact(match.pass, match.moment === 'ready'));
    else words.push(told.nearest(match.pass, match.moment === 'ready', differ), ...differenceWords(match, entry, work, numbers));
    if (i === 0 && named < entry.states.length) words.push(told.partly(named));
    if (i === 0 && exact.length > 1) words.push(sameWords(exact));
    if (away === 0 && differ === 0) words.push(told.allAgrees);
    if (away !== 0) words.push(away > 0 ? told.ahead(away) : told.behind(-away));
    if (differ > 0 && differ <= FEW_NEEDLES) words.push(told.setNeedles);
    if (away < 0 && differ > 0) words.push(told.unpick(-away));
    return { words, take: away === 0 ? null : { label: stop <= 1 ? told.set0 : told.set(stop - 1), set: () => { set(stop); } } };
  });
}

function sameWords(exact: readonly PassMatch[]): string {
  const { mistake: told } = pageWords().stand, passes = exact.filter(({ moment }) => moment === 'done').map(({ pass }) => pass);
  return passes.length < 2 ? '' : told.same(gatherPasses(passes).map(({ first, last, by }) => told.run(first, last, by)).join(', '), passes.length);
}

function differenceWords({ pass, differ, isOtherSide }: PassMatch, { states }: MistakeEntry, { record: { trace } }: StandWork, numbers: NeedleNumbers): string[] {
  const { mistake: told, face } = pageWords().stand, should = statesAt(trace, pass), { needlesPerBed } = trace, lines = isOtherSide ? [told.otherSide] : [];
  const nameOf = (state: number): string => told.states[state === NEEDLE.empty ? 'empty' : state === NEEDLE.working ? 'working' : state === NEEDLE.held ? 'held' : 'unseen'];
  for (const bed of [0, 1]) {
    const groups = new Map<string, number[]>();
    for (const i of differ) {
      const key = `${nameOf(states[i])}|${nameOf(should[i])}`;
      if (Math.floor(i / needlesPerBed) === bed) groups.set(key, [...groups.get(key) ?? [], (i % needlesPerBed) + 1]);
    }
    for (const [key, needles] of groups) {
      const [is, wanted] = key.split('|');
      lines.push(told.differs(nameNeedles(needles, needlesPerBed, numbers), face[bed === 0 ? 'frontBed' : 'backBed'], is, wanted));
    }
  }
  return lines.length <= MOST_LINES ? lines : [...lines.slice(0, MOST_LINES), told.more(lines.length - MOST_LINES)];
}

/** A refusal, its field by name: the core says the path. What was knitted stands among the changes above it. */
const messages = (problems: readonly Problem[]): string[] =>
  problems.map(({ field, message }) => (field === null ? told(message) : told(message).replaceAll(field, nameField(field))));

const passesOf = (file: SockFile): number => {
  const { plan } = planSock(file);
  return plan === null ? 0 : plan.legPasses + plan.plainPasses + plan.anklePasses + plan.heelPasses + plan.footPasses + plan.toePasses;
};

/** What the sock on the panel would mean for the one under way. */
export function answerChange(place: KnitPlace, panelFile: SockFile | null, unit: LengthUnit, take: (place: KnitPlace) => void): ChangeShow {
  const words = pageWords(), { change } = words.stand;
  if (!isBegun(place)) return { changes: [], words: [change.free], take: null };
  const anew = panelFile === null ? null : planAnew(place, panelFile, words);
  if (anew === null || anew.changes.length === 0 || panelFile === null) return { changes: [], words: [change.same], take: null };
  const changes = anew.changes.map(({ field, was, is }) => change.field(nameField(field), sayValue(field, was, unit), sayValue(field, is, unit)));
  if (anew.place === null) return { changes, words: [change.cannot, ...messages(anew.problems)], take: null };
  return { changes, words: [change.can(Math.max(0, place.stop - 1), passesOf(place.file), passesOf(panelFile))], take: () => { take(anew.place); } };
}

/** Rows of a leg that may have to go so that the carriage stays on its side. */
const LEAST_ROWS = 3;

/** A leg that goes with what is knitted: the one found, else the next shorter that does. Null with the reasons where none does. */
export function takeLeg(place: KnitPlace, fit: LegFit): { readonly place: KnitPlace; readonly value: number } | readonly string[] {
  const words = pageWords(), first = planAnew(place, fit.file, words);
  if (first.place !== null) return { place: first.place, value: fit.value };
  const rowsPerMm = place.file.gauge.rowsPer10cm / 100, steps = fit.field === 'leg.lengthMm' ? Math.ceil(LEAST_ROWS / rowsPerMm) : LEAST_ROWS;
  for (let value = fit.value - 1; value >= Math.max(0, fit.value - steps); value--) {
    const shorter = planAnew(place, withField(fit.file, fit.field, value), words);
    if (shorter.place !== null) return { place: shorter.place, value };
  }
  return messages(first.problems);
}
