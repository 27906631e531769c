import { formLoops, momentOf } from '../yarn/form-loops.ts';
import type { CloseNeedles } from './close-needles.ts';

/** A needle's own way at each step: at rest, forward, fed, latch shut, cast off, drawn, done; and of one that does not knit, as the carriage comes and has gone by. */
const STEPS = [0, 0.29, 0.44, 0.585, 0.675, 0.8, 1] as const, PASSED_BY = [0, 0.6] as const;

/** Moments of the needle that is followed, in order. */
export function momentsOf({ forming, followed }: CloseNeedles): number[] {
  const { made, laid } = forming.scene.source.needles[followed], { crossing } = forming;
  return [...(made < 0 ? PASSED_BY : STEPS).map((own) => momentOf(forming, followed, own)), ...(laid.length > 0 ? [crossing, 0.5 * (1 + crossing), 1] : [])];
}

/** Which of all needles is the next one in the carriage's way, or the one before. */
export function nextInWay({ first, followed, forming: { scene: { way } } }: CloseNeedles, steps: 1 | -1): number { return first + followed + steps * way; }

/** Which of the shown needles is on its way at t: the one that is wrapped, that knits, or that has knitted last. */
export function busyNeedle({ forming }: CloseNeedles, t: number): number {
  const { scene: { source: { needles }, way }, crossing } = forming, { needles: stands } = formLoops(forming, t), order = Array.from(needles.keys());
  if (way < 0) order.reverse();
  const wrapped = t > crossing ? order.find((i) => needles[i].laid.length > 0) : undefined;
  return wrapped ?? order.find((i) => stands[i].own > 0 && stands[i].own < 1) ?? order.filter((i) => stands[i].own >= 1).at(-1) ?? order[0];
}
