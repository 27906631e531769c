import { expect, test } from 'vitest';
import { createRandom, randomPick, type Random } from '../../src/base/random.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import { buildProgram } from '../../src/plan/build-program.ts';
import type { NeedleRef, Program, Step } from '../../src/plan/step.ts';
import { randomPlans } from './random-sock.ts';

interface Mutation { readonly name: string; readonly program: Program; readonly isPlaced: boolean }

const stepsOf = <K extends Step['do']>(program: Program, kind: K): number[] =>
  program.steps.flatMap((step, i) => (step.do === kind ? [i] : []));
const replace = (program: Program, i: number, ...by: Step[]): Program =>
  ({ ...program, steps: [...program.steps.slice(0, i), ...by, ...program.steps.slice(i + 1)] });
const off = (at: NeedleRef): NeedleRef => ({ bed: at.bed, needle: at.needle + 1000 });

/** Ways to spoil a program that a machine must notice; `isPlaced`: the fault has a needle. */
const SPOILERS: readonly ((program: Program, random: Random) => Mutation | null)[] = [
  (program, random) => {
    // Without its last pass a sock is only a pass shorter.
    const i = randomPick(random, stepsOf(program, 'knit').slice(0, -1));
    return { name: `pass at step ${i} left out`, program: replace(program, i), isPlaced: false };
  },
  (program, random) => {
    const i = randomPick(random, stepsOf(program, 'knit'));
    const step = program.steps[i] as Extract<Step, { do: 'knit' }>;
    return { name: `pass at step ${i} from the wrong side`, program: replace(program, i, { ...step, from: step.from === 'left' ? 'right' : 'left' }), isPlaced: false };
  },
  (program, random) => {
    const i = randomPick(random, stepsOf(program, 'hold'));
    return { name: `hold at step ${i} left out`, program: replace(program, i), isPlaced: true };
  },
  (program, random) => {
    const i = randomPick(random, stepsOf(program, 'return'));
    return { name: `return at step ${i} twice`, program: replace(program, i, program.steps[i], program.steps[i]), isPlaced: true };
  },
  (program, random) => {
    const i = randomPick(random, stepsOf(program, 'hold'));
    const step = program.steps[i] as Extract<Step, { do: 'hold' }>;
    return { name: `hold at step ${i} off the bed`, program: replace(program, i, { ...step, at: off(step.at) }), isPlaced: true };
  },
  (program, random) => {
    const transfers = stepsOf(program, 'transfer');
    if (transfers.length === 0) return null;
    const i = randomPick(random, transfers);
    const step = program.steps[i] as Extract<Step, { do: 'transfer' }>;
    const k = Math.floor(random() * step.moves.length);
    const moves = step.moves.map((m, j) => (j === k ? { from: m.from, to: off(m.to) } : m));
    return { name: `move ${k} of step ${i} past the bed's end`, program: replace(program, i, { ...step, moves }), isPlaced: true };
  },
  (program, random) => {
    const transfers = stepsOf(program, 'transfer');
    if (transfers.length === 0) return null;
    const i = randomPick(random, transfers);
    const step = program.steps[i] as Extract<Step, { do: 'transfer' }>;
    return { name: `moves of step ${i} twice`, program: replace(program, i, step, step), isPlaced: true };
  },
  (program) => {
    const i = program.steps.findIndex((s) => s.do === 'graft' || s.do === 'bind-off');
    return { name: 'closing left out', program: replace(program, i), isPlaced: true };
  },
  (program) => ({ name: 'a bed too short', program: { ...program, needlesPerBed: 8 }, isPlaced: true }),
];

test('a spoiled program is refused, with the pass and, where there is one, the needle', () => {
  const random = createRandom(7);
  let refused = 0;
  for (const plan of randomPlans(8, 60)) {
    const program = buildProgram(plan);
    for (const spoil of SPOILERS) {
      const mutation = spoil(program, random);
      if (mutation === null) continue;
      const { fault } = knitProgram(mutation.program);
      expect(fault, mutation.name).not.toBeNull();
      expect(fault?.reason).not.toBe('');
      expect(fault?.pass).toBeGreaterThanOrEqual(0);
      if (mutation.isPlaced) expect(fault?.needle, mutation.name).not.toBeNull();
      refused++;
    }
  }
  expect(refused).toBeGreaterThan(400);
});
