import type { PageState } from '../panel/page-state.ts';
import type { KnittedSock, PosedSock } from '../pipeline/result.ts';
import { findYarnPlace, type YarnPlace } from '../yarn/find-yarn-place.ts';
import { layYarn } from '../yarn/lay-yarn.ts';
import { threadYarn } from '../yarn/thread-yarn.ts';
import type { YarnLay } from '../yarn/yarn-lay.ts';
import { shapeKey } from '../worker/shape-memory.ts';
import { diametersOf } from './picture-cloth.ts';

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
        laid = { lay: layOf(knitted, posed), key, positions: posed.pose.positions };
      }
      return laid?.key === key ? findYarnPlace(laid.lay, loop) : null;
    },
  };
}

/** As the picture lays it. */
function layOf(sock: KnittedSock, { pose }: PosedSock): YarnLay {
  const { fabric, grid } = sock;
  return layYarn({ fabric, grid, thread: threadYarn(grid), diameterMm: Float64Array.from(diametersOf(sock)) }, pose.positions, { isFlat: pose.name === 'flat' });
}
