import type { PoseName } from '../shape/pose.ts';
import { layYarn } from '../yarn/lay-yarn.ts';
import { threadYarn } from '../yarn/thread-yarn.ts';
import type { YarnLay } from '../yarn/yarn-lay.ts';
import { yarnDiameterMm } from '../yarn/yarn-size.ts';
import type { KnittedSock } from './result.ts';

/** Lays all yarn of a whole sock in a pose at rest; `positions` has three entries a vertex of the sock's fabric, mm. */
export function laySockYarn({ plan, grid, fabric }: KnittedSock, positions: Float64Array, pose: PoseName): YarnLay {
  const diameterMm = Float64Array.from(plan.yarns, ({ metresPer100g }) => yarnDiameterMm(metresPer100g));
  return layYarn({ fabric, grid, thread: threadYarn(grid), diameterMm }, positions, { isFlat: pose === 'flat' });
}
