import { laidKey, laidOf } from '../panel/laid-of.ts';
import type { PageState } from '../panel/page-state.ts';
import type { PosedSock } from '../pipeline/result.ts';
import type { WeighClient } from '../worker/weigh-client.ts';
import type { PageStore } from './page-store.ts';

/** Milliseconds that a shape must have been at rest before its yarn is measured: a hand on a slider goes on sooner. */
const REST_MS = 300;

/** Has the yarn measured along the loops of every shape that comes to rest and stays, while the page goes on. */
export function createLaidDesk(store: PageStore, work: WeighClient): { render(state: PageState): void } {
  let asked: PosedSock | null = null, askedFor = '', timer: ReturnType<typeof setTimeout> | undefined;
  const stop = (): void => {
    clearTimeout(timer);
    work.cancel();
    asked = null;
  };
  const ask = async (): Promise<void> => {
    const { knitted, posed } = store.state();
    if (knitted === null || posed === null) return;
    const { positions, name } = posed.pose, key = laidKey(knitted), yarns = await work.ask(knitted.file, name, positions);
    if (yarns !== null && asked === posed) store.update({ laid: { key, pose: name, yarns } });
  };
  return {
    render: (state) => {
      const { knitted, posed, shape } = state;
      if (knitted === null || posed === null || shape.kind !== 'settled' || (posed.pose.name !== 'flat' && posed.pose.name !== 'tube')) {
        if (asked !== null) stop();
        return;
      }
      const key = laidKey(knitted);
      if ((asked === posed && askedFor === key) || laidOf(state)?.pose === posed.pose.name) return;
      stop();
      asked = posed;
      askedFor = key;
      timer = setTimeout(() => { void ask(); }, REST_MS);
    },
  };
}
