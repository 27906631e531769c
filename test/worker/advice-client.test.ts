import { afterEach, describe, expect, it } from 'vitest';
import type { Advice } from '../../src/choose/advice.ts';
import { adviseInSteps, adviseSock } from '../../src/choose/advise-sock.ts';
import { gradeSock } from '../../src/choose/grade-sock.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { startGrower } from '../../src/pipeline/grow-sock.ts';
import { measureLaidYarn } from '../../src/pipeline/measure-laid-yarn.ts';
import { poseInSteps } from '../../src/pipeline/pose-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { adviceClient } from '../../src/worker/advice-client.ts';
import type { AdviceClient } from '../../src/worker/advice-client.ts';
import type { OpenPort } from '../../src/worker/client.ts';
import type { Port } from '../../src/worker/messages.ts';
import { serve } from '../../src/worker/serve.ts';
import type { Workshop } from '../../src/worker/serve.ts';

const FILE: SockFile = { gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, foot: { lengthMm: 220, ballGirthMm: 210, heelDiagonalMm: 300 } };
const workshop: Workshop = { knit: knitSock, pose: poseInSteps, weigh: measureLaidYarn, advise: adviseInSteps, grow: startGrower, grade: gradeSock };
/** Never comes to an end. */
const endless: Workshop = { ...workshop, advise: function* (): Generator<number, Advice> { for (;;) yield 0.5; } };
const broken: Workshop = { ...workshop, advise: () => { throw new Error('out of yarn'); } };

const links: (OpenPort & { isClosed: boolean })[] = [];
afterEach(() => { for (const link of links.splice(0)) link.close(); });

function connect(...works: readonly (Workshop | null)[]): AdviceClient {
  let next = 0;
  return adviceClient(() => {
    const { port1, port2 } = new MessageChannel(), work = works[Math.min(next++, works.length - 1)] ?? null;
    if (work !== null) serve(port2, work);
    const link = { port: port1 as unknown as Port, isClosed: false, close: () => { link.isClosed = true; port1.close(); port2.close(); }, onDeath: null };
    links.push(link);
    return link;
  });
}

describe('advice over a port', () => {
  it('is the same as in one thread, tells of its progress, and closes its worker', async () => {
    const seen: number[] = [];
    const outcome = await connect(workshop).ask(FILE, true, (fraction) => { seen.push(fraction); });
    expect(outcome).toEqual({ status: 'advised', advice: adviseSock(FILE) });
    expect(outcome.status === 'advised' && outcome.advice.best.length).toBe(3);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(links.map(({ isClosed }) => isClosed)).toEqual([true]);
  });

  it('may change counts that are fixed by hand where that is asked for', async () => {
    // Half of the stitches that the foot would take.
    const file: SockFile = { ...FILE, counts: { stitches: 12 } };
    for (const keepsCounts of [true, false]) {
      const outcome = await connect(workshop).ask(file, keepsCounts, () => undefined);
      const stitches = outcome.status === 'advised' ? outcome.advice.best.map(({ plan }) => plan.stitches) : [];
      expect(stitches.length).toBeGreaterThan(0);
      expect(stitches.every((each) => each === 12)).toBe(keepsCounts);
    }
  });

  it('is called off at once, and a newer question takes the place of an older one', async () => {
    const work = connect(endless, endless, workshop);
    let hasBegun = (): void => undefined;
    const begun = new Promise<void>((resolve) => { hasBegun = resolve; });
    const first = work.ask(FILE, true, hasBegun);
    await begun;
    const second = work.ask(FILE, true, () => undefined);
    expect(await first).toEqual({ status: 'cancelled' });
    work.cancel();
    expect(await second).toEqual({ status: 'cancelled' });
    expect((await work.ask(FILE, true, () => undefined)).status).toBe('advised');
    expect(links.map(({ isClosed }) => isClosed)).toEqual([true, true, true]);
  });

  it('fails in words where the work, the worker or the browser does', async () => {
    expect(await connect(broken).ask(FILE, true, () => undefined)).toEqual({ status: 'failed', message: 'Error: out of yarn' });
    const dying = connect(null).ask(FILE, true, () => undefined);
    links.at(-1)?.onDeath?.('out of memory');
    expect(await dying).toEqual({ status: 'failed', message: 'out of memory' });
    expect(await adviceClient(() => { throw new Error('no workers here'); }).ask(FILE, true, () => undefined)).toEqual({ status: 'failed', message: 'Error: no workers here' });
  });
});
