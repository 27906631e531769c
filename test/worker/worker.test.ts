import { afterEach, describe, expect, it } from 'vitest';
import { MessageChannel } from 'node:worker_threads';
import { adviseInSteps } from '../../src/choose/advise-sock.ts';
import { gradeSock } from '../../src/choose/grade-sock.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { startGrower } from '../../src/pipeline/grow-sock.ts';
import { measureLaidYarn } from '../../src/pipeline/measure-laid-yarn.ts';
import { poseInSteps, poseSock } from '../../src/pipeline/pose-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { client } from '../../src/worker/client.ts';
import type { MakeOutcome, OpenPort, WorkClient } from '../../src/worker/client.ts';
import type { Port } from '../../src/worker/messages.ts';
import { serve } from '../../src/worker/serve.ts';
import type { Workshop } from '../../src/worker/serve.ts';

/** As small as a sock can be and still have every part: some 600 loops. */
const small = (turnDownWidth: number): SockFile => ({
  gauge: { stitchesPer10cm: 10, rowsPer10cm: 14 }, leg: { lengthMm: 60 }, heel: { turnDownWidth },
  counts: { stitches: 24, footPasses: 24 },
});

const workshop: Workshop = { knit: knitSock, pose: poseInSteps, weigh: measureLaidYarn, grade: gradeSock, advise: adviseInSteps, grow: startGrower };

/** The same stages, waiting for the post after the knitting as often as it takes to be cancelled. */
const patient: Workshop = {
  ...workshop,
  pose: function* (sock, pose, options) {
    while (options.isCancelled?.() !== true) yield;
    return yield* poseInSteps(sock, pose, options);
  },
};

const opened: OpenPort[] = [];
const clients: WorkClient[] = [];
afterEach(() => {
  for (const each of clients.splice(0)) each.dispose();
  for (const link of opened.splice(0)) link.close();
});

/** A channel with our server at its far end; without a workshop, a worker that never answers. */
function openChannel(work: Workshop | null): OpenPort {
  const { port1, port2 } = new MessageChannel();
  if (work !== null) serve(port2 as unknown as Port, work);
  const link: OpenPort = { port: port1 as unknown as Port, close: () => { port1.close(); port2.close(); }, onDeath: null };
  opened.push(link);
  return link;
}

function connect(works: readonly (Workshop | null)[], graceMs = 5000): WorkClient {
  let next = 0;
  const made = client(() => openChannel(works[Math.min(next++, works.length - 1)] ?? null), graceMs);
  clients.push(made);
  return made;
}

const statusOf = (outcome: MakeOutcome): string => outcome.status;

describe('worker and page', () => {
  it('a sock is knitted first and posed after, the same as in one thread', async () => {
    const seen: string[] = [];
    const outcome = await connect([workshop]).make(small(4), 'flat', { onKnitted: (sock) => { seen.push(`knitted ${sock.trace.loops}`); } });
    const alone = knitSock(small(4));
    expect(seen).toEqual([`knitted ${alone.sock?.trace.loops}`]);
    expect(outcome.status).toBe('posed');
    if (outcome.status !== 'posed' || alone.sock === null) return;
    const here = poseSock(alone.sock, 'flat');
    expect([...outcome.posed.pose.positions]).toEqual([...here.pose.positions]);
    expect(outcome.posed.measures).toEqual(here.measures);
  });

  it('latest wins: of five requests at once, only the last is answered with a shape', async () => {
    const work = connect([workshop]);
    const outcomes = await Promise.all([4, 6, 8, 4, 6].map((width) => work.make(small(width), 'flat', {})));
    expect(outcomes.map(statusOf)).toEqual(['cancelled', 'cancelled', 'cancelled', 'cancelled', 'posed']);
  });

  it('a cancel reaches into work that is going on, and the same worker takes the next request', async () => {
    const work = connect([patient]);
    let isKnitted = (): void => undefined;
    const knitted = new Promise<void>((resolve) => { isKnitted = resolve; });
    const stale = work.make(small(4), 'tube', { onKnitted: isKnitted });
    await knitted;
    const next = work.make(small(6), 'tube', {});
    expect(statusOf(await stale)).toBe('cancelled');
    await new Promise((resolve) => setTimeout(resolve, 50));
    work.cancel();
    expect(statusOf(await next)).toBe('cancelled');
    expect(opened.length).toBe(1);
  });

  it('a worker that does not heed a cancel is replaced, and the next request is answered', async () => {
    const work = connect([null, workshop], 20);
    const stale = work.make(small(4), 'flat', {});
    const next = work.make(small(6), 'flat', {});
    expect(statusOf(await stale)).toBe('cancelled');
    expect(statusOf(await next)).toBe('posed');
    expect(opened.length).toBe(2);
  });

  it('a worker that dies fails its request in words, and the next request gets a new worker', async () => {
    const work = connect([null, workshop]);
    const lost = work.make(small(4), 'flat', {});
    opened[0]?.onDeath?.('out of memory');
    expect(await lost).toEqual({ status: 'failed', message: 'out of memory' });
    expect(statusOf(await work.make(small(4), 'flat', {}))).toBe('posed');
  });

  it('a worker that cannot be opened fails the request', async () => {
    const work = client(() => { throw new Error('no workers here'); });
    expect(await work.make(small(4), 'flat', {})).toEqual({ status: 'failed', message: 'Error: no workers here' });
  });

  it('a sock that cannot be knitted comes back with its problems', async () => {
    const outcome = await connect([workshop]).make(small(12), 'flat', {});
    expect(outcome.status).toBe('refused');
    if (outcome.status === 'refused') expect(outcome.problems.map((problem) => problem.field)).toContain('heel.turnDownWidth');
  });

  it('a shape is remembered: new colours and an undo are knitted again, not relaxed again', async () => {
    let relaxed = 0;
    const counting: Workshop = { ...workshop, pose: function* (...given) { relaxed += 1; return yield* workshop.pose(...given); } };
    const work = connect([counting]);
    await work.make(small(4), 'flat', {});
    const colours: string[] = [];
    const outcome = await work.make({ ...small(4), yarns: [{ colour: '#aa3300' }] }, 'flat', { onKnitted: (sock) => { colours.push(sock.plan.yarns[0]?.colour ?? ''); } });
    expect(outcome.status).toBe('posed');
    expect(colours).toEqual(['#aa3300']);
    expect(relaxed).toBe(1);
    await work.make(small(6), 'flat', {});
    expect(relaxed).toBe(2);
    // Firm cloth takes another shape than that.
    await work.make({ ...small(6), cloth: { firmness: 'firm' } }, 'flat', {});
    expect(relaxed).toBe(3);
  });

  it('a table of sizes is graded as in one thread; latest wins here too', async () => {
    const work = connect([workshop]), sizes = [{ name: 'A', lengthMm: 240, ballGirthMm: 220, legLengthMm: null, isEstimate: false }];
    const shape = work.make(small(4), 'flat', {}), outcome = await work.grade(small(4), sizes);
    expect(statusOf(await shape)).toBe('cancelled');
    expect(outcome).toEqual({ status: 'graded', rows: gradeSock(small(4), sizes) });
    const broken = connect([{ ...workshop, grade: () => { throw new Error('no table'); } }]);
    expect(await broken.grade(small(4), sizes)).toEqual({ status: 'failed', message: 'Error: no table' });
  });

  it('disposing settles whatever runs or waits', async () => {
    const work = connect([null]);
    const both = [work.make(small(4), 'flat', {}), work.make(small(6), 'flat', {})];
    work.dispose();
    expect((await Promise.all(both)).map(statusOf)).toEqual(['cancelled', 'cancelled']);
  });
});
