import type { Attention } from '../pipeline/grow-sock.ts';
import type { Keyframe } from '../pipeline/hang-at.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { OpenPort } from './client.ts';
import type { GrowReply, GrowRequest } from './messages.ts';

export interface GrowthListener {
  /** The keyframe is the listener's to keep; `progress`: how much of the making has shapes that are close enough, 0 to 1. */
  readonly onKeyframe: (keyframe: Keyframe, progress: number) => void;
  /** The worker has died or could not be started: no more keyframes come. */
  readonly onFailed: (message: string) => void;
}

export interface GrowthClient {
  /** Begins with a sock that can be knitted; whatever was under way is called off. */
  grow(file: SockFile, attention: Attention, listener: GrowthListener): void;
  attend(attention: Attention): void;
  stop(): void;
}

/** The page's side of a sock's growth: a worker of its own for each sock, closed as soon as that sock is no longer wanted. */
export function growthClient(open: () => OpenPort): GrowthClient {
  let link: OpenPort | null = null, lastId = 0;
  const stop = (): void => {
    if (link === null) return;
    link.port.onmessage = null;
    link.onDeath = null;
    link.close();
    link = null;
  };
  const post = (request: GrowRequest): void => { link?.port.postMessage(request, []); };
  return {
    grow: (file, attention, { onKeyframe, onFailed }) => {
      stop();
      const id = lastId += 1;
      const fail = (message: string): void => {
        stop();
        onFailed(message);
      };
      try {
        link = open();
        link.onDeath = fail;
        link.port.onmessage = (event: MessageEvent) => {
          const reply = event.data as GrowReply;
          if (reply.id !== id) return;
          if (reply.kind === 'failed') fail(reply.message);
          else onKeyframe(reply.keyframe, reply.progress);
        };
        post({ kind: 'grow', id, file, attention });
      } catch (error) {
        fail(String(error));
      }
    },
    attend: (attention) => { post({ kind: 'attend', id: lastId, attention }); },
    stop,
  };
}
