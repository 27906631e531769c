import { describe, expect, it } from 'vitest';
import { BED, LOOP, NEEDLE } from '../../src/machine/codes.ts';
import type { StitchGrid } from '../../src/machine/grid.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import type { Plan } from '../../src/plan/plan-types.ts';
import { mirrorProgram } from '../../src/plan/mirror-program.ts';
import { describeWork } from '../../src/sheet/describe-work.ts';
import { listWork } from '../../src/sheet/list-work.ts';
import { labelNeedle } from '../../src/sheet/needle-label.ts';
import { WORDS } from '../../src/words/words.ts';
import { knitPlan, randomPlans } from '../laws/random-sock.ts';
import type { SecondKnitting, SecondStop } from './second-machine.ts';
import { knitAgain } from './second-machine.ts';

type Knitted = ReturnType<typeof knitPlan>;

/** A needle's number from its label, counted from the middle of the bed: 1 to the left of it is L1, and an odd bed has a 0. */
function needleOf(label: string, count: number): number {
  if (label === '0') return (count + 1) / 2;
  const away = Number(label.slice(1)), half = Math.floor(count / 2);
  return label.startsWith('L') ? half + 1 - away : count - half + away;
}

const letterOf = (bed: string): string => (bed === 'front' ? 'F' : 'B');
const other = (letter: string): string => (letter === 'F' ? 'B' : 'F');
const span = (first: number, last: number): number[] => Array.from({ length: Math.abs(last - first) + 1 }, (_, i) => first + i * Math.sign(last - first));

/** The sentences of a stop as phrases of the second machine, by what an English reader understands of them and nothing else. */
function readSentences(acts: readonly string[], yarns: readonly string[], needlesPerBed: number, yarnBefore: number): Pick<SecondStop, 'before' | 'after' | 'beds' | 'knitted' | 'yarn' | 'from' | 'to'> {
  const before: string[] = [], after: string[] = [];
  const at = (bed: string, label: string): string => letterOf(bed) + String(needleOf(label, needlesPerBed));
  let beds: string[] = [], knitted = 0, yarn = yarnBefore, from = '', to = '';
  const rules: readonly (readonly [RegExp, (...words: string[]) => void])[] = [
    [/^Cast on (\d+) for 1x1 rib over needles (\S+) to (\S+), one on each bed in turn: \S+ on the (\w+) bed, .* ends on the (\w+)\.$/, (count, first, last, bed, side) => {
      const ends = [needleOf(first, needlesPerBed), needleOf(last, needlesPerBed)] as const;
      // The yarn ends where the carriage is.
      expect(Math.sign(ends[1] - ends[0])).toBe(side === 'left' ? -1 : 1);
      before.push('yarn 1', `cast on row ${span(...ends).map((needle, i) => (i % 2 === 0 ? letterOf(bed) : other(letterOf(bed))) + String(needle)).join(' ')}`);
      knitted = Number(count);
    }],
    [/^Cast on (\d+) as a closed round: on the (\w+) bed from (\S+) to (\S+), then on the other bed back to (\S+)\. .* ends on the (\w+)\.$/, (count, bed, first, turn, last) => {
      const row = (letter: string, from: string, to: string): string[] => span(needleOf(from, needlesPerBed), needleOf(to, needlesPerBed)).map((needle) => letter + String(needle));
      before.push('yarn 1', `cast on ring ${[...row(letterOf(bed), first, turn), ...row(other(letterOf(bed)), turn, last)].join(' ')}`);
      knitted = Number(count);
    }],
    [/^Carriage from (\w+) to (\w+): the (?:(\w+) bed knits|two beds knit) (\d+)\.$/, (a, b, bed, count) => { [from, to, beds, knitted] = [a, b, bed === undefined ? ['front', 'back'] : [bed], Number(count)]; }],
    [/^Push needle (\S+) of the (\w+) bed forward into hold\.$/, (label, bed) => before.push(`hold ${at(bed, label)}`)],
    [/^Bring needle (\S+) of the (\w+) bed back to work/, (label, bed) => before.push(`work ${at(bed, label)}`)],
    [/^(?:Lay the yarn round held|Corner wrap: lay the yarn round) needle (\S+) of the (\w+) bed\.$/, (label, bed) => after.push(`wrap ${at(bed, label)}`)],
    [/^Break the yarn\. Join (.*) at the carriage, on the (?:left|right); leave two tails\.$/, (name) => { yarn = yarns.indexOf(name) + 1; before.push(`yarn ${yarn}`); }],
    [/^Break the yarn and join it again/, () => { before.push(`yarn ${yarnBefore}`); }],
    [/^Transfer (?:all|the) (\d+) loops of the (\w+) bed to the (\w+) bed, (?:each )?straight across/, (_count, a, b) => before.push(`across ${letterOf(a)} ${letterOf(b)}`)],
    [/^Transfer (\S+)(?: to (\S+))? of the (\w+) bed to (\S+)(?: to (\S+))? of the (\w+) bed, in this order\.$/, (a, b, bed, c, d, onto) => {
      const to = span(needleOf(c, needlesPerBed), needleOf(d ?? c, needlesPerBed));
      before.push(`move ${span(needleOf(a, needlesPerBed), needleOf(b ?? a, needlesPerBed)).map((needle, i) => `${letterOf(bed) + String(needle)}>${letterOf(onto) + String(to[i])}`).join(' ')}`);
    }],
    [/^Decrease at the \w+ end of both beds: the loop of (\S+) goes onto (\S+), then that of (\S+) onto (\S+)\.$/, (second, third, outer, onto) => {
      for (const bed of ['front', 'back']) before.push(`move ${at(bed, second)}>${at(bed, third)} ${at(bed, outer)}>${at(bed, onto)}`);
    }],
    [/^Break the yarn, leaving .* Graft needles (\S+)(?: to (\S+))? of the two beds together: (\d+) loops to \3\.$/, (first, last) => {
      before.push(`join ${span(needleOf(first, needlesPerBed), needleOf(last ?? first, needlesPerBed)).map((needle) => `F${needle}+B${needle}`).join(' ')}`);
    }],
    [/^Bind off from (\S+) to (\S+) of the (\w+) bed, (\d+) needles:/, (first, last, bed) => {
      before.push(`bind off ${span(needleOf(first, needlesPerBed), needleOf(last, needlesPerBed)).map((needle) => letterOf(bed) + String(needle)).join(' ')}`);
    }],
    [/^(?:Hang comb|Take the weights off\.$|Hang the weights on again|Turn the work|Widen the heel|Give the stitches|\d+ stitches stay|Sew the centre-back|The sock is off the needles\. Darn in)/, () => undefined],
  ];
  for (const act of acts) {
    const rule = rules.find(([pattern]) => pattern.test(act));
    if (rule === undefined) throw new Error(`not understood: ${act}`);
    rule[1](...(rule[0].exec(act) ?? []).slice(1));
  }
  return { before, after, beds, knitted, yarn, from, to };
}

/** `across F B`, all that is on a bed, as moves. */
function spellOut(stop: SecondStop, occupied: (bed: string) => readonly string[]): SecondStop {
  return {
    ...stop, before: stop.before.map((phrase) => {
      const [, from, to] = /^across (\w) (\w)$/.exec(phrase) ?? [];
      return from === undefined ? phrase : `move ${occupied(from).map((needle) => `${needle}>${to}${needle.slice(1)}`).join(' ')}`;
    }),
  };
}

function knitByWords(plan: Plan, { program, trace }: Pick<Knitted, 'program' | 'trace'>): SecondKnitting {
  let yarn = 1;
  const stops: SecondStop[] = [];
  for (const item of listWork(program, trace)) {
    const { acts } = describeWork({ plan, program, trace }, item, { words: WORDS.en, numbers: 'middle' });
    const read = readSentences(acts, plan.yarns.map(({ name }) => name), program.needlesPerBed, yarn);
    yarn = read.yarn;
    const last = stops.length === 0 ? null : knitAgain(stops).states.at(-1);
    stops.push(spellOut({ ...read, stop: item.index, kind: item.kind }, (bed) => [...last?.working ?? []].filter((needle) => needle.startsWith(bed))));
  }
  return knitAgain(stops);
}

/** A loop and what it was drawn through, said without loop numbers: a round's cast-on may begin anywhere. */
function sayLoop(kind: string, pass: number, needle: string, through: readonly string[]): string {
  return `${kind} ${pass} ${needle} through ${[...through].sort().join(' ')}`;
}

function sayGrid(grid: StitchGrid): string[] {
  const kinds = Object.keys(LOOP) as (keyof typeof LOOP)[];
  const name = (i: number): string => `${grid.pass[i]}${grid.bed[i] === BED.front ? 'F' : 'B'}${grid.needle[i]}${grid.kind[i] === LOOP.wrap ? 'w' : ''}`;
  return Array.from({ length: grid.loopCount }, (_, i) => sayLoop(
    kinds.find((kind) => LOOP[kind] === grid.kind[i]) ?? '', grid.pass[i], name(i), [...grid.parents.subarray(grid.parentStart[i], grid.parentStart[i + 1])].map(name),
  )).sort();
}

function sayAgain({ loops }: SecondKnitting): string[] {
  const kinds = { 'cast-on': 'castOn', knit: 'knit', wrap: 'wrap', join: 'graft', 'bind-off': 'bindOff' } as const;
  const name = (i: number): string => `${loops[i].pass}${loops[i].needle}${loops[i].kind === 'wrap' ? 'w' : ''}`;
  return loops.map((loop, i) => sayLoop(kinds[loop.kind], loop.pass, name(i), loop.through.map(name))).sort();
}

/** Small enough that knitting again at each stop is soon done; of even and odd beds. */
const plans = randomPlans(715, 60).filter(({ stitches, footPasses }) => stitches <= 44 && footPasses <= 60).slice(0, 14);

describe('the words of each pass', () => {
  it('are understood by a reader that knows no program, and knit the same loops', () => {
    expect(plans.length).toBeGreaterThan(8);
    for (const plan of plans) {
      const knitted = knitPlan(plan), again = knitByWords(plan, knitted);
      expect(sayAgain(again).filter((said) => !said.startsWith('graft'))).toEqual(sayGrid(knitted.grid).filter((said) => !said.startsWith('graft')));
      expect(again.live).toBe(0);
      again.states.forEach(({ working, held }, pass) => {
        const state = (letter: string, needle: number): number => (held.has(letter + String(needle)) ? NEEDLE.held : working.has(letter + String(needle)) ? NEEDLE.working : NEEDLE.empty);
        const count = plan.needlesPerBed, seen = ['F', 'B'].flatMap((letter) => Array.from({ length: count }, (_, i) => state(letter, i + 1)));
        expect(seen, `after pass ${pass}`).toEqual([...knitted.trace.needleStates.subarray(pass * 2 * count, (pass + 1) * 2 * count)]);
      });
    }
  });

  it('knit the other foot’s sock from the mirrored program', () => {
    for (const plan of plans.slice(0, 4)) {
      const program = mirrorProgram(knitPlan(plan).program), { grid, trace, fault } = knitProgram(program);
      if (fault !== null) throw new Error(fault.reason);
      expect(sayAgain(knitByWords(plan, { program, trace })).filter((said) => !said.startsWith('graft'))).toEqual(sayGrid(grid).filter((said) => !said.startsWith('graft')));
    }
  });

  it('say the same in German: as many sentences, the same needles and numbers', () => {
    const numbers = (acts: readonly string[]): string[] => acts.map((act) => (act.match(/\b[LR]?\d+\b/g) ?? []).sort().join(' '));
    for (const plan of plans) {
      const knitted = { plan, ...knitPlan(plan) };
      for (const item of listWork(knitted.program, knitted.trace)) {
        const [english, german] = (['en', 'de'] as const).map((language) => describeWork(knitted, item, { words: WORDS[language], numbers: 'middle' }));
        expect(numbers(german.acts)).toEqual(numbers(english.acts));
        expect(german.why).not.toBe(english.why);
        expect(german.watch === '').toBe(english.watch === '');
      }
    }
  });
});

/** Common practice, no source: needles are counted from the middle of the bed to both sides, or from one end. */
it.each([
  [1, 180, 'L90'], [90, 180, 'L1'], [91, 180, 'R1'], [180, 180, 'R90'],
  [1, 5, 'L2'], [3, 5, '0'], [4, 5, 'R1'], [5, 5, 'R2'],
])('needle %i of %i is %s', (needle, count, label) => {
  expect(labelNeedle(needle, count, 'middle')).toBe(label);
  expect(labelNeedle(needle, count, 'left')).toBe(String(needle));
  expect(needleOf(label, count)).toBe(needle);
});
