import type { Attention, Grower, KeyTask } from '../pipeline/grow-sock.ts';
import type { Keyframe } from '../pipeline/hang-at.ts';
import type { KnitOutcome, KnittedSock } from '../pipeline/result.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { GrowReply, GrowRequest, Port } from './messages.ts';
import { pauseForPost, SLICE_MS } from './slices.ts';

/** The worker's side of a sock's growth. */
export interface GrowthService {
  /** Works for as long as the worker lives; rests while nothing is left to do. */
  begin(request: GrowRequest & { kind: 'grow' }): Promise<void>;
  attend(attention: Attention): void;
}

interface GrowthStages {
  readonly knit: (file: SockFile) => KnitOutcome;
  readonly grow: (sock: KnittedSock) => Grower;
}

/** A hand on the scrubber asks for a pass so soon after another, ms; while it does, and for as long after, the page's drawing has the processor for most of the time. */
const SCRUB_MS = 200, SCRUB_PAUSE_MS = 40;

interface Job { readonly task: KeyTask; readonly steps: Generator<void, Keyframe> }

export function createGrowthService(port: Port, { knit, grow }: GrowthStages): GrowthService {
  let attention: Attention = { pass: 0, isResting: false };
  let wake: () => void = () => undefined;
  let attendedAt = -Infinity, isScrubbed = false;
  const isForNobody = ({ task }: Job): boolean => task.quality === 2 && (!attention.isResting || attention.pass !== task.pass);
  /** Whether someone waits for the first shape of a pass, or for the one at rest of another, while a shape is being made. */
  const isWaitedFor = ({ task }: Job, next: KeyTask | null): boolean => task.quality === 1 && (next?.quality === 0 || (next?.quality === 2 && next.pass !== task.pass));

  /** The shape; null when the job was left for another one, `job` to be gone on with later. */
  const work = async (job: Job, isUrgent: () => boolean): Promise<Keyframe | null> => {
    for (let sliceEnd = performance.now() + SLICE_MS; ;) {
      const step = job.steps.next();
      if (step.done === true) return step.value;
      if (performance.now() < sliceEnd) continue;
      await pauseForPost();
      if (isScrubbed && performance.now() - attendedAt < SCRUB_MS) await new Promise((resolve) => { setTimeout(resolve, SCRUB_PAUSE_MS); });
      if (isForNobody(job) || isUrgent()) return null;
      sliceEnd = performance.now() + SLICE_MS;
    }
  };
  return {
    attend: (given) => {
      const now = performance.now();
      isScrubbed = now - attendedAt < SCRUB_MS;
      attendedAt = now;
      attention = given;
      wake();
    },
    begin: async ({ id, file, attention: first }) => {
      const { sock } = knit(file);
      if (sock === null) throw new Error('the sock cannot be knitted');
      attention = first;
      const grower = grow(sock);
      let left: Job | null = null;
      for (;;) {
        const task = grower.next(attention);
        if (task === null) { await new Promise<void>((resolve) => { wake = resolve; }); continue; }
        const isGoingOn: boolean = left !== null && task.quality === 1, job: Job = isGoingOn && left !== null ? left : { task, steps: grower.make(task) };
        if (isGoingOn) left = null;
        const keyframe = await work(job, () => isWaitedFor(job, grower.next(attention)));
        if (keyframe !== null) port.postMessage({ kind: 'keyframe', id, keyframe, progress: grower.progress() } satisfies GrowReply, []);
        else if (!isForNobody(job)) left = job;
      }
    },
  };
}
