import type { Advice } from '../choose/advice.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { OpenPort } from './client.ts';
import type { AdviseReply, AdviseRequest } from './messages.ts';

/** How a question ended. Every question ends in one of these; none hangs and none throws. */
export type AdviceOutcome =
  | { readonly status: 'advised'; readonly advice: Advice }
  | { readonly status: 'cancelled' }
  | { readonly status: 'failed'; readonly message: string };

export interface AdviceClient {
  /** The newest question counts: an earlier one is cancelled. `onProgress` hears fractions from 0 to 1. */
  ask(file: SockFile, keepsCounts: boolean, onProgress: (fraction: number) => void): Promise<AdviceOutcome>;
  cancel(): void;
}

interface Question { readonly link: OpenPort; readonly settle: (outcome: AdviceOutcome) => void }

/**
 * The page's side of advice: each question goes to a worker of its own, so that the sock's shape can
 * be made meanwhile. It is closed with the answer, or as soon as nobody waits for it any more.
 */
export function adviceClient(open: () => OpenPort): AdviceClient {
  let asked: Question | null = null;
  let lastId = 0;
  const end = (outcome: AdviceOutcome): void => {
    if (asked === null) return;
    const { link, settle } = asked;
    asked = null;
    link.port.onmessage = null;
    link.onDeath = null;
    link.close();
    settle(outcome);
  };
  const hear = (reply: AdviseReply, onProgress: (fraction: number) => void): void => {
    if (reply.id !== lastId) return;
    switch (reply.kind) {
      case 'weighing': onProgress(reply.fraction); return;
      case 'advised': end({ status: 'advised', advice: reply.advice }); return;
      case 'failed': end({ status: 'failed', message: reply.message }); return;
      default: reply satisfies never;
    }
  };
  return {
    ask: (file, keepsCounts, onProgress) => new Promise((settle) => {
      end({ status: 'cancelled' });
      lastId += 1;
      try {
        const link = open(), request: AdviseRequest = { kind: 'advise', id: lastId, file, keepsCounts };
        asked = { link, settle };
        link.port.onmessage = (event: MessageEvent) => { hear(event.data as AdviseReply, onProgress); };
        link.onDeath = (message) => { end({ status: 'failed', message }); };
        link.port.postMessage(request, []);
      } catch (error) {
        asked = null;
        settle({ status: 'failed', message: String(error) });
      }
    }),
    cancel: () => { end({ status: 'cancelled' }); },
  };
}
