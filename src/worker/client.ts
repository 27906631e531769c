import type { Problem } from '../base/problem.ts';
import type { GradedRow, SizeRow } from '../choose/size-table.ts';
import type { KnittedSock, PosedSock } from '../pipeline/result.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { PoseName } from '../shape/pose.ts';
import type { Port, WorkReply, WorkRequest } from './messages.ts';
import { createShapeMemory, shapeKey } from './shape-memory.ts';

/** How a request ended. Every request ends in one of these; none hangs and none throws. */
export type MakeOutcome =
  | { readonly status: 'posed'; readonly posed: PosedSock; readonly milliseconds: number }
  | { readonly status: 'refused'; readonly problems: readonly Problem[] }
  | { readonly status: 'cancelled' }
  | { readonly status: 'failed'; readonly message: string };

export type GradeOutcome =
  | { readonly status: 'graded'; readonly rows: readonly GradedRow[] }
  | { readonly status: 'cancelled' }
  | { readonly status: 'failed'; readonly message: string };

export interface MakeListener {
  readonly onKnitted?: (sock: KnittedSock) => void;
  /** The positions are the listener's to keep. */
  readonly onProgress?: (positions: Float64Array, fraction: number) => void;
}

/** A port and the way to close what is behind it. The client sets `onDeath`. */
export interface OpenPort {
  readonly port: Port;
  close(): void;
  onDeath: ((message: string) => void) | null;
}

export interface WorkClient {
  /** Latest wins: whatever runs or waits is cancelled. `hung`: on the beds, a shape near to rest to go on from, if one is known. */
  make(file: SockFile, pose: PoseName, listener: MakeListener, pass?: number | null, hung?: Float64Array | null): Promise<MakeOutcome>;
  /** One sock to a table of sizes: counts, and no shapes. */
  grade(file: SockFile, sizes: readonly SizeRow[]): Promise<GradeOutcome>;
  cancel(): void;
  dispose(): void;
}

interface MakeJob {
  readonly kind: 'make';
  readonly id: number;
  readonly file: SockFile;
  readonly pose: PoseName;
  readonly pass: number | null;
  readonly hung: Float64Array | null;
  readonly listener: MakeListener;
  readonly settle: (outcome: MakeOutcome) => void;
  readonly begun: number;
}

interface GradeJob {
  readonly kind: 'grade';
  readonly id: number;
  readonly file: SockFile;
  readonly sizes: readonly SizeRow[];
  readonly settle: (outcome: GradeOutcome) => void;
}

type Job = MakeJob | GradeJob;
/** How any job may end. */
type Ending = Extract<MakeOutcome, GradeOutcome>;

/** Milliseconds in which a worker may heed a cancel before it is closed and replaced. */
const GRACE_MS = 60;

/**
 * The page's side of the work: one request runs, the newest waits, the rest are cancelled. A
 * worker that is deep in its work and does not heed a cancel is closed and a fresh one opened; so
 * is one that died. Measured in Chromium on two busy cores: a fresh worker gives its first answer
 * within 25 ms, and relaxes a sock of 9,400 loops no slower than a warm one, to the noise.
 */
export function client(open: () => OpenPort, graceMs = GRACE_MS): WorkClient {
  return new LatestWins(open, graceMs);
}

class LatestWins implements WorkClient {
  private readonly open: () => OpenPort;
  private readonly graceMs: number;
  private readonly shapes = createShapeMemory();
  private link: OpenPort | null = null;
  private running: Job | null = null;
  private waiting: Job | null = null;
  private isHangingOn = false;
  private grace: ReturnType<typeof setTimeout> | undefined;
  private lastId = 0;

  constructor(open: () => OpenPort, graceMs: number) {
    this.open = open;
    this.graceMs = graceMs;
  }

  make(file: SockFile, pose: PoseName, listener: MakeListener, pass: number | null = null, hung: Float64Array | null = null): Promise<MakeOutcome> {
    return new Promise((settle) => {
      this.begin({ kind: 'make', id: this.nextId(), file, pose, pass, hung, listener, settle, begun: performance.now() });
    });
  }

  grade(file: SockFile, sizes: readonly SizeRow[]): Promise<GradeOutcome> {
    return new Promise((settle) => { this.begin({ kind: 'grade', id: this.nextId(), file, sizes, settle }); });
  }

  cancel(): void {
    this.waiting?.settle({ status: 'cancelled' });
    this.waiting = null;
    if (this.running === null || this.link === null) return;
    this.post({ kind: 'cancel', id: this.running.id });
    this.running.settle({ status: 'cancelled' });
    this.running = null;
    this.isHangingOn = true;
    this.grace = setTimeout(() => { this.hangUp(); this.startWaiting(); }, this.graceMs);
  }

  dispose(): void {
    this.cancel();
    this.hangUp();
  }

  private nextId(): number {
    this.lastId += 1;
    return this.lastId;
  }

  private begin(job: Job): void {
    this.cancel();
    this.waiting = job;
    this.startWaiting();
  }

  private startWaiting(): void {
    if (this.waiting === null || this.isHangingOn) return;
    const job = this.waiting;
    this.waiting = null;
    this.running = job;
    try {
      this.link ??= this.dial();
      this.post(this.requestOf(job));
    } catch (error) {
      this.end({ status: 'failed', message: String(error) });
    }
  }

  private requestOf(job: Job): WorkRequest {
    const { id, file } = job;
    if (job.kind === 'grade') return { kind: 'grade', id, file, sizes: job.sizes };
    const needsShape = this.shapes.recall(shapeKey(file, job.pose, job.pass)) === null;
    return { kind: 'make', id, file, pose: job.pose, pass: job.pass, needsShape, ...(job.hung === null ? {} : { hung: job.hung }) };
  }

  private dial(): OpenPort {
    const link = this.open();
    link.port.onmessage = (event: MessageEvent) => { this.hear(event.data as WorkReply); };
    link.onDeath = (message) => {
      this.hangUp();
      this.end({ status: 'failed', message });
      this.startWaiting();
    };
    return link;
  }

  private hangUp(): void {
    clearTimeout(this.grace);
    this.isHangingOn = false;
    if (this.link === null) return;
    this.link.port.onmessage = null;
    this.link.onDeath = null;
    this.link.close();
    this.link = null;
  }

  private post(request: WorkRequest): void {
    this.link?.port.postMessage(request, []);
  }

  private hear(reply: WorkReply): void {
    const job = this.running;
    if (job === null || reply.id !== job.id) { this.hearLastOfCancelled(reply); return; }
    if (reply.kind === 'cancelled') this.end({ status: 'cancelled' });
    else if (reply.kind === 'failed') this.end({ status: 'failed', message: reply.message });
    else if (job.kind === 'make') this.hearOfSock(job, reply);
    else if (reply.kind === 'graded') {
      this.running = null;
      job.settle({ status: 'graded', rows: reply.rows });
    }
  }

  private hearOfSock(job: MakeJob, reply: WorkReply): void {
    const finish = (outcome: MakeOutcome): void => {
      this.running = null;
      job.settle(outcome);
    };
    switch (reply.kind) {
      case 'knitted': job.listener.onKnitted?.(reply.sock); return;
      case 'progress': job.listener.onProgress?.(reply.positions, reply.fraction); return;
      case 'done': finish(this.posed(job, reply.posed)); return;
      case 'refused': finish({ status: 'refused', problems: reply.problems }); return;
      default: return;
    }
  }

  /** A cancelled request has come to its end in time: the worker is free. */
  private hearLastOfCancelled(reply: WorkReply): void {
    if (!this.isHangingOn || reply.kind === 'knitted' || reply.kind === 'progress') return;
    clearTimeout(this.grace);
    this.isHangingOn = false;
    this.startWaiting();
  }

  private posed(job: MakeJob, fresh: PosedSock | null): MakeOutcome {
    const key = shapeKey(job.file, job.pose, job.pass);
    const posed = fresh ?? this.shapes.recall(key);
    if (posed === null) return { status: 'failed', message: 'The shape of the sock went missing.' };
    this.shapes.keep(key, posed);
    return { status: 'posed', posed, milliseconds: performance.now() - job.begun };
  }

  private end(ending: Ending): void {
    const job = this.running;
    this.running = null;
    job?.settle(ending);
  }
}
