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
  /**
   * In the shape at rest, or in the last one of the same sock: on the beds the needles draw its yarn about. `waiting` while its yarn is
   * still to be laid, which takes some tenths of a second and is done when the page has shown the rest; null where there is no shape.
   */
  placeOf(state: Pick<PageState, 'knitted' | 'posed'>, loop: number): YarnPlace | 'waiting' | null;
}

interface Laid { readonly lay: YarnLay; readonly key: string; readonly positions: Float64Array }

/** Milliseconds that the page is left before yarn is laid. */
const AFTER_MS = 60;

/** `changed` is called when yarn has been laid. */
export function createYarnRuler(changed: () => void): YarnRuler {
  let laid: Laid | null = null, timer: ReturnType<typeof setTimeout> | undefined;
  const layLater = (sock: KnittedSock, posed: PosedSock, key: string): void => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      laid = { lay: layOf(sock, posed), key, positions: posed.pose.positions };
      changed();
    }, AFTER_MS);
  };
  return {
    placeOf: ({ knitted, posed }, loop) => {
      if (knitted === null) return null;
      const key = `${shapeKey(knitted.file, 'flat', null)} ${JSON.stringify(knitted.plan.yarns)}`, isSame = laid?.key === key;
      const isStale = posed !== null && posed.part === null && (!isSame || laid?.positions !== posed.pose.positions);
      if (isStale) layLater(knitted, posed, key);
      if (laid !== null && isSame) return findYarnPlace(laid.lay, loop);
      return isStale ? 'waiting' : null;
    },
  };
}

/** As the picture lays it. */
function layOf(sock: KnittedSock, { pose }: PosedSock): YarnLay {
  const { fabric, grid } = sock;
  return layYarn({ fabric, grid, thread: threadYarn(grid), diameterMm: Float64Array.from(diametersOf(sock)) }, pose.positions, { isFlat: pose.name === 'flat' });
}
