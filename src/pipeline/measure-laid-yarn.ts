import { measureYarn, type LaidYarn } from '../measure/measure-yarn.ts';
import { layYarn } from '../yarn/lay-yarn.ts';
import { threadYarn } from '../yarn/thread-yarn.ts';
import { yarnDiameterMm } from '../yarn/yarn-size.ts';
import type { KnittedSock } from './result.ts';

/** Yarn that a sock takes in a shape at rest, along its centre lines; three entries a vertex of the sock's fabric, mm. */
export function measureLaidYarn({ plan, grid, fabric }: KnittedSock, positions: Float64Array): LaidYarn[] {
  const diameterMm = Float64Array.from(plan.yarns, ({ metresPer100g }) => yarnDiameterMm(metresPer100g));
  return measureYarn(plan, grid, layYarn({ fabric, grid, thread: threadYarn(grid), diameterMm }, positions));
}
