import type { KnittedSock, PosedSock } from '../pipeline/result.ts';
import { client, type WorkClient } from '../worker/client.ts';
import { openWorker } from '../worker/open-worker.ts';

/** Socks laid flat beside whatever pose the page is in: by a worker of their own, each sock once. */
export interface FinishedShapes {
  /** A shape that the page has anyway. */
  know(sock: KnittedSock, posed: PosedSock): void;
  /** Positions of the whole sock laid flat; `waiting` while they are under way, `missing` where they could not be had. */
  of(sock: KnittedSock): Float64Array | 'waiting' | 'missing';
  /** Gives the worker back, with what is under way. */
  stop(): void;
}

/** `changed` is called when a shape has come in, or has failed. */
export function createFinishedShapes(changed: () => void): FinishedShapes {
  let work: WorkClient | null = null, sock: KnittedSock | null = null, shape: Float64Array | 'waiting' | 'missing' = 'missing';
  const take = (of: KnittedSock, positions: Float64Array | 'missing'): void => {
    if (of !== sock) return;
    shape = positions;
    work?.dispose();
    work = null;
  };
  return {
    know: (of, { pose }) => {
      if (pose.name !== 'flat' || (of === sock && shape instanceof Float64Array)) return;
      sock = of;
      take(of, pose.positions);
    },
    of: (wanted) => {
      if (wanted === sock) return shape;
      sock = wanted;
      shape = 'waiting';
      work ??= client(openWorker);
      void work.make(wanted.file, 'flat', {}).then((outcome) => {
        if (wanted !== sock || outcome.status === 'cancelled') return;
        take(wanted, outcome.status === 'posed' ? outcome.posed.pose.positions : 'missing');
        changed();
      });
      return shape;
    },
    stop: () => {
      work?.dispose();
      work = null;
      if (shape === 'waiting') sock = null;
    },
  };
}
