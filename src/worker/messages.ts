import type { Problem } from '../base/problem.ts';
import type { GradedRow, SizeRow } from '../choose/size-table.ts';
import type { Advice } from '../choose/advice.ts';
import type { Attention } from '../pipeline/grow-sock.ts';
import type { Keyframe } from '../pipeline/hang-at.ts';
import type { KnittedSock, LaidYarn, PosedSock } from '../pipeline/result.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { PoseName } from '../shape/pose.ts';

/** What the page asks of the worker. `pass` is for the pose on the beds, null the usual one. `hung` a shape to go on from. `needsShape` is false where the page remembers the shape already. */
export type WorkRequest =
  | { readonly kind: 'make'; readonly id: number; readonly file: SockFile; readonly pose: PoseName; readonly pass: number | null; readonly needsShape: boolean; readonly hung?: Float64Array }
  | { readonly kind: 'grade'; readonly id: number; readonly file: SockFile; readonly sizes: readonly SizeRow[] }
  | { readonly kind: 'cancel'; readonly id: number };

/**
 * What the worker says of request `id`. `done`, `graded`, `refused`, `cancelled` and `failed` are last, and
 * exactly one of them comes. `posed` is null where no shape was asked for.
 */
export type WorkReply =
  | { readonly kind: 'knitted'; readonly id: number; readonly sock: KnittedSock }
  | { readonly kind: 'progress'; readonly id: number; readonly fraction: number; readonly positions: Float64Array }
  | { readonly kind: 'done'; readonly id: number; readonly posed: PosedSock | null }
  | { readonly kind: 'graded'; readonly id: number; readonly rows: readonly GradedRow[] }
  | { readonly kind: 'refused'; readonly id: number; readonly problems: readonly Problem[] }
  | { readonly kind: 'cancelled'; readonly id: number }
  | { readonly kind: 'failed'; readonly id: number; readonly message: string };

/** The page asks for socks that would suit the file's foot better. It is not called off: the page closes the worker. */
export interface AdviseRequest { readonly kind: 'advise'; readonly id: number; readonly file: SockFile; readonly keepsCounts: boolean }

/** What the worker says of it: how far it has come, and last either of the other two. */
export type AdviseReply =
  | { readonly kind: 'weighing'; readonly id: number; readonly fraction: number }
  | { readonly kind: 'advised'; readonly id: number; readonly advice: Advice }
  | { readonly kind: 'failed'; readonly id: number; readonly message: string };

/** The page asks what yarn lies in a shape at rest (three entries a vertex, mm). It is not called off: the page closes the worker. */
export interface WeighRequest { readonly kind: 'weigh'; readonly id: number; readonly file: SockFile; readonly pose: PoseName; readonly positions: Float64Array }

export type WeighReply =
  | { readonly kind: 'weighed'; readonly id: number; readonly yarns: readonly LaidYarn[] }
  | { readonly kind: 'failed'; readonly id: number; readonly message: string };

/** The page asks for a sock's shapes all along its making, and tells where someone looks. It is not called off: the page closes the worker. */
export type GrowRequest =
  | { readonly kind: 'grow'; readonly id: number; readonly file: SockFile; readonly attention: Attention }
  | { readonly kind: 'attend'; readonly id: number; readonly attention: Attention };

/** What the worker says of it: shape after shape, best first, and how much of the making is close enough, 0 to 1; it has no end but `failed`. */
export type GrowReply =
  | { readonly kind: 'keyframe'; readonly id: number; readonly keyframe: Keyframe; readonly progress: number }
  | { readonly kind: 'failed'; readonly id: number; readonly message: string };

/** The side of a port that both ends use: a Worker, a worker's own scope, or either end of a MessageChannel. */
export interface Port {
  postMessage(message: unknown, transfer: Transferable[]): void;
  onmessage: ((event: MessageEvent) => unknown) | null;
}
