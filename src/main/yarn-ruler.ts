import type { PageState } from '../panel/page-state.ts';
import type { KnittedSock } from '../pipeline/result.ts';
import { findYarnPlace, type YarnPlace } from '../yarn/find-yarn-place.ts';
import { layYarn } from '../yarn/lay-yarn.ts';
import { threadYarn } from '../yarn/thread-yarn.ts';
import type { YarnLay } from '../yarn/yarn-lay.ts';
import { yarnDiameterMm } from '../yarn/yarn-size.ts';
import { shapeKey } from '../worker/shape-memory.ts';

/** Measures along the yarn of the sock on the page. */
export interface YarnRuler {
  /** In the shape at rest, or in the last one of the same sock: on the beds the needles draw its yarn about. Null before there is one. */
  placeOf(state: Pick<PageState, 'knitted' | 'posed'>, loop: number): YarnPlace | null;
}

export function createYarnRuler(): YarnRuler {
  let laid: { readonly lay: YarnLay; readonly key: string; readonly positions: Float64Array } | null = null;
  return {
    placeOf: ({ knitted, posed }, loop) => {
      if (knitted === null) return null;
      const key = `${shapeKey(knitted.file, 'flat', null)} ${JSON.stringify(knitted.plan.yarns)}`;
      if (posed !== null && posed.part === null && (laid?.key !== key || laid.positions !== posed.pose.positions)) {
        laid = { lay: layOf(knitted, posed.pose.positions), key, positions: posed.pose.positions };
      }
      return laid?.key === key ? findYarnPlace(laid.lay, loop) : null;
    },
  };
}

function layOf({ fabric, grid, plan }: KnittedSock, positions: Float64Array): YarnLay {
  return layYarn({ fabric, grid, thread: threadYarn(grid), diameterMm: Float64Array.from(plan.yarns, ({ metresPer100g }) => yarnDiameterMm(metresPer100g)) }, positions);
}
