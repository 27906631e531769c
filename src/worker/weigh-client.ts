import type { LaidYarn } from '../pipeline/result.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { PoseName } from '../shape/pose.ts';
import type { OpenPort } from './client.ts';
import type { WeighReply, WeighRequest } from './messages.ts';

export interface WeighClient {
  /** Yarn in a shape at rest; null where it could not be had. The newest question counts: an earlier one is never answered. */
  ask(file: SockFile, pose: PoseName, positions: Float64Array): Promise<readonly LaidYarn[] | null>;
  cancel(): void;
}

/** The page's side of the yarn's weighing: each question goes to a worker of its own, so that the next shape does not wait for it. */
export function weighClient(open: () => OpenPort): WeighClient {
  let link: OpenPort | null = null, lastId = 0;
  const hangUp = (): void => {
    if (link === null) return;
    link.port.onmessage = null;
    link.onDeath = null;
    link.close();
    link = null;
  };
  return {
    ask: (file, pose, positions) => new Promise((settle) => {
      hangUp();
      lastId += 1;
      const id = lastId, end = (yarns: readonly LaidYarn[] | null): void => {
        hangUp();
        settle(yarns);
      };
      try {
        const opened = link = open(), request: WeighRequest = { kind: 'weigh', id, file, pose, positions };
        opened.port.onmessage = (event: MessageEvent) => {
          const reply = event.data as WeighReply;
          if (reply.id === id) end(reply.kind === 'weighed' ? reply.yarns : null);
        };
        opened.onDeath = () => { end(null); };
        opened.port.postMessage(request, []);
      } catch { end(null); }
    }),
    cancel: hangUp,
  };
}
