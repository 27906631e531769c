import type { PageState } from '../panel/page-state.ts';
import { laySockYarn } from '../pipeline/lay-sock-yarn.ts';
import type { KnittedSock, PosedSock } from '../pipeline/result.ts';
import { findYarnPlace, type YarnPlace } from '../yarn/find-yarn-place.ts';
import type { YarnLay } from '../yarn/yarn-lay.ts';
import { shapeKey } from '../worker/shape-memory.ts';

/** Measures along the yarn of the sock on the page. */
export interface YarnRuler {
  /**
   * In the shape at rest, or in the last one of the same sock: on the beds the needles draw its yarn about. `waiting` while its yarn is
   * still to be laid, which takes a tenth of a second or two and is done when the page has nothing else to do; null where there is no shape.
   */
  placeOf(state: Pick<PageState, 'knitted' | 'posed' | 'shape'>, loop: number): YarnPlace | 'waiting' | null;
}

interface Laid { readonly lay: YarnLay; readonly key: string; readonly positions: Float64Array }

/** Milliseconds that the page is left before yarn is laid; those free of frames by which it is known to stand still, of the 50 that a browser gives at most; and those after which it is laid all the same. */
const AFTER_MS = 60, STILL_MS = 30, LATEST_MS = 3000;

/** `changed` is called when yarn has been laid. */
export function createYarnRuler(changed: () => void): YarnRuler {
  let laid: Laid | null = null, asked: { readonly posed: PosedSock; readonly key: string } | null = null, stop = (): void => undefined;
  const layLater = (sock: KnittedSock, posed: PosedSock, key: string): void => {
    if (asked?.posed === posed && asked.key === key) return;
    stop();
    asked = { posed, key };
    stop = whenStill(() => {
      asked = null;
      laid = { lay: laySockYarn(sock, posed.pose.positions, posed.pose.name), key, positions: posed.pose.positions };
      changed();
    });
  };
  return {
    placeOf: ({ knitted, posed, shape }, loop) => {
      if (knitted === null) return null;
      const key = `${shapeKey(knitted.file, 'flat', null)} ${JSON.stringify(knitted.plan.yarns)}`, isSame = laid?.key === key;
      const isStale = posed !== null && posed.part === null && (!isSame || laid?.positions !== posed.pose.positions);
      // A shape on its way to rest is another one at the next moment.
      if (isStale && shape.kind !== 'relaxing') layLater(knitted, posed, key);
      if (laid !== null && isSame) return findYarnPlace(laid.lay, loop);
      return isStale ? 'waiting' : null;
    },
  };
}

/** Does what holds the page up at a time when no picture moves; what is returned calls it off. */
function whenStill(act: () => void): () => void {
  const latest = performance.now() + LATEST_MS;
  let idle = 0;
  const tryNow = (deadline: IdleDeadline): void => {
    if (deadline.timeRemaining() >= STILL_MS || performance.now() > latest) act();
    else timer = setTimeout(ask, AFTER_MS);
  };
  const ask = (): void => {
    // Not every browser has it.
    if ('requestIdleCallback' in window) idle = requestIdleCallback(tryNow, { timeout: LATEST_MS });
    else act();
  };
  let timer = setTimeout(ask, AFTER_MS);
  return () => {
    clearTimeout(timer);
    if (idle !== 0) cancelIdleCallback(idle);
  };
}
