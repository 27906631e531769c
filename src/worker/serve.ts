import type { GradedRow, SizeRow } from '../choose/size-table.ts';
import type { Advice } from '../choose/advice.ts';
import type { AdviseOptions } from '../choose/advise-sock.ts';
import type { Grower } from '../pipeline/grow-sock.ts';
import type { NearShape, PoseOptions } from '../pipeline/pose-sock.ts';
import type { KnitOutcome, KnittedSock, LaidYarn, PosedSock } from '../pipeline/result.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { PoseName } from '../shape/pose.ts';
import type { AdviseReply, AdviseRequest, GrowRequest, Port, WeighReply, WeighRequest, WorkReply, WorkRequest } from './messages.ts';
import { createGrowthService } from './serve-growth.ts';
import { pauseForPost, SLICE_MS } from './slices.ts';

/**
 * The stages that a worker runs. Wherever `pose` yields, word of a cancel can come in; one that
 * never yields is cut short by the client, which closes the worker.
 */
export interface Workshop {
  readonly knit: (file: SockFile) => KnitOutcome;
  readonly pose: (sock: KnittedSock, pose: PoseName, options: PoseOptions) => Generator<void, PosedSock>;
  /** Yarn in a shape at rest. */
  readonly weigh: (sock: KnittedSock, positions: Float64Array, pose: PoseName) => LaidYarn[];
  readonly grade: (file: SockFile, sizes: readonly SizeRow[]) => readonly GradedRow[];
  /** Yields the part of the work that is done. */
  readonly advise: (file: SockFile, options: AdviseOptions) => Generator<number, Advice>;
  readonly grow: (sock: KnittedSock) => Grower;
}

/** Milliseconds between two pictures of a sock that is still relaxing. */
const PROGRESS_MS = 90;

/** Answers the requests of a port. The client sends one at a time. */
export function serve(port: Port, workshop: Workshop): void {
  const cancelled = new Set<number>();
  /** The last shape that came to rest: the next sock is most often a little change of that one. */
  let last: (NearShape & { readonly pose: PoseName }) | null = null;
  const post = (reply: WorkReply | AdviseReply | WeighReply, transfer: Transferable[] = []): void => { port.postMessage(reply, transfer); };

  const make = async ({ id, file, pose, pass, needsShape, hung }: WorkRequest & { kind: 'make' }): Promise<void> => {
    const isCancelled = (): boolean => cancelled.has(id);
    const outcome = workshop.knit(file);
    if (outcome.sock === null) { post({ kind: 'refused', id, problems: outcome.problems }); return; }
    post({ kind: 'knitted', id, sock: outcome.sock });
    if (!needsShape) { post({ kind: 'done', id, posed: null }); return; }
    const onProgress = reportNowAndThen((positions, fraction) => {
      post({ kind: 'progress', id, fraction, positions }, [positions.buffer]);
    });
    const posed = await workInSlices(workshop.pose(outcome.sock, pose, {
      isCancelled, onProgress,
      ...(pass === null ? {} : { pass }), ...(hung === undefined ? {} : { hung }),
      ...(last?.pose === pose ? { near: last } : {}),
    }));
    if (isCancelled() || posed.pose.status === 'cancelled') post({ kind: 'cancelled', id });
    else {
      if (posed.pose.status === 'converged' && posed.part === null) last = { pose, fabric: outcome.sock.fabric, positions: posed.pose.positions.slice() };
      post({ kind: 'done', id, posed });
    }
  };

  /** Counts only, and soon over: it does not look at the post. */
  const grade = ({ id, file, sizes }: WorkRequest & { kind: 'grade' }): Promise<void> => new Promise((done) => {
    post({ kind: 'graded', id, rows: workshop.grade(file, sizes) });
    done();
  });

  const advise = async ({ id, file, keepsCounts }: AdviseRequest): Promise<void> => {
    const advice = await workInSlices(workshop.advise(file, { keepsCounts }), (fraction) => { post({ kind: 'weighing', id, fraction }); });
    post({ kind: 'advised', id, advice });
  };

  /** Soon over, too. */
  const weigh = ({ id, file, pose, positions }: WeighRequest): Promise<void> => new Promise((done) => {
    const { sock } = workshop.knit(file);
    if (sock === null) throw new Error('a sock that cannot be knitted has no yarn');
    post({ kind: 'weighed', id, yarns: workshop.weigh(sock, positions, pose) });
    done();
  });

  const growth = createGrowthService(port, workshop);

  port.onmessage = (event: MessageEvent) => {
    const request = event.data as WorkRequest | AdviseRequest | GrowRequest | WeighRequest;
    if (request.kind === 'cancel') { cancelled.add(request.id); return; }
    if (request.kind === 'attend') { growth.attend(request.attention); return; }
    (request.kind === 'grow' ? growth.begin(request) : request.kind === 'advise' ? advise(request) : request.kind === 'grade' ? grade(request) : request.kind === 'weigh' ? weigh(request) : make(request))
      .catch((error: unknown) => { post({ kind: 'failed', id: request.id, message: String(error) }); })
      .finally(() => { cancelled.delete(request.id); });
  };
}

/** Passes on copies of the positions, not too often. */
function reportNowAndThen(report: (positions: Float64Array<ArrayBuffer>, fraction: number) => void): (positions: Float64Array, fraction: number) => void {
  let last = -Infinity;
  return (positions, fraction) => {
    const now = performance.now();
    if (now - last < PROGRESS_MS) return;
    last = now;
    report(new Float64Array(positions), fraction);
  };
}

/** Drives work to its end and looks at the post after every slice of it. `onSlice` hears what was last yielded. */
async function workInSlices<S, T>(steps: Generator<S, T>, onSlice?: (step: S) => void): Promise<T> {
  let sliceEnd = performance.now() + SLICE_MS;
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done === true) return step.value;
    if (performance.now() < sliceEnd) continue;
    onSlice?.(step.value);
    await pauseForPost();
    sliceEnd = performance.now() + SLICE_MS;
  }
}
