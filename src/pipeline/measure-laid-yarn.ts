import { measureYarn, type LaidYarn } from '../measure/measure-yarn.ts';
import type { PoseName } from '../shape/pose.ts';
import { layYarn } from '../yarn/lay-yarn.ts';
import { threadYarn } from '../yarn/thread-yarn.ts';
import { yarnDiameterMm } from '../yarn/yarn-size.ts';
import type { KnittedSock } from './result.ts';

/** Yarn that a sock takes in a pose at rest, along its centre lines; `positions` has three entries a vertex of the sock's fabric, mm. */
export function measureLaidYarn({ plan, grid, fabric }: KnittedSock, positions: Float64Array, pose: PoseName): LaidYarn[] {
  const diameterMm = Float64Array.from(plan.yarns, ({ metresPer100g }) => yarnDiameterMm(metresPer100g));
  return measureYarn(plan, grid, layYarn({ fabric, grid, thread: threadYarn(grid), diameterMm }, positions, { isFlat: pose === 'flat' }));
}
