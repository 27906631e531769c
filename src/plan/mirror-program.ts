import type { NeedleRef, Program, Side, Step } from './step.ts';

const mirrorSide = (side: Side): Side => (side === 'left' ? 'right' : 'left');

/** The same work with left and right exchanged: needle i becomes needle n + 1 - i. */
export function mirrorProgram(program: Program): Program {
  const mirror = (r: NeedleRef): NeedleRef => ({ bed: r.bed, needle: program.needlesPerBed + 1 - r.needle });
  const mirrorStep = (step: Step): Step => {
    switch (step.do) {
      case 'cast-on':
        return { ...step, needles: step.needles.map(mirror), carriage: mirrorSide(step.carriage) };
      case 'knit':
        return { ...step, from: mirrorSide(step.from) };
      case 'hold': case 'return': case 'wrap':
        return { ...step, at: mirror(step.at) };
      case 'transfer':
        return { ...step, moves: step.moves.map((m) => ({ from: mirror(m.from), to: mirror(m.to) })) };
      case 'graft':
        return { ...step, pairs: step.pairs.map(([a, b]) => [mirror(a), mirror(b)] as const) };
      case 'bind-off': case 'take-off':
        return { ...step, needles: step.needles.map(mirror) };
      case 'yarn': case 'seam':
        return step;
    }
  };
  return { ...program, steps: program.steps.map(mirrorStep) };
}
