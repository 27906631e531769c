import { afterEach, describe, expect, it } from 'vitest';
import { MessageChannel } from 'node:worker_threads';
import { adviseInSteps } from '../../src/choose/advise-sock.ts';
import { gradeSock } from '../../src/choose/grade-sock.ts';
import { startGrower } from '../../src/pipeline/grow-sock.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { measureLaidYarn } from '../../src/pipeline/measure-laid-yarn.ts';
import { poseInSteps, poseSock } from '../../src/pipeline/pose-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import type { OpenPort } from '../../src/worker/client.ts';
import type { Port } from '../../src/worker/messages.ts';
import { serve, type Workshop } from '../../src/worker/serve.ts';
import { weighClient } from '../../src/worker/weigh-client.ts';

const FILE: SockFile = {
  gauge: { stitchesPer10cm: 10, rowsPer10cm: 14 }, leg: { lengthMm: 60 }, heel: { turnDownWidth: 4 }, counts: { stitches: 24, footPasses: 24 },
  yarns: [{ name: 'A' }, { name: 'B', from: 'toe' }],
};
const workshop: Workshop = { knit: knitSock, pose: poseInSteps, weigh: measureLaidYarn, grade: gradeSock, advise: adviseInSteps, grow: startGrower };
const { positions } = poseSock(knitSock(FILE).sock!, 'tube').pose;

let opened = 0, closed = 0;
const links: OpenPort[] = [];
afterEach(() => {
  for (const link of links.splice(0)) link.close();
  opened = closed = 0;
});

function open(work: Workshop | null): OpenPort {
  const { port1, port2 } = new MessageChannel();
  if (work !== null) serve(port2 as unknown as Port, work);
  let isOpen = true;
  const link: OpenPort = {
    port: port1 as unknown as Port, onDeath: null,
    close: () => {
      if (isOpen) closed += 1;
      isOpen = false;
      port1.close();
      port2.close();
    },
  };
  opened += 1;
  links.push(link);
  return link;
}

describe('weighing yarn beside the page', () => {
  it('gives what the same stages give in one thread, and closes its worker', async () => {
    expect(await weighClient(() => open(workshop)).ask(FILE, 'tube', positions)).toEqual(measureLaidYarn(knitSock(FILE).sock!, positions, 'tube'));
    expect([opened, closed]).toEqual([1, 1]);
  });

  it('answers the newest question alone, each by a worker of its own', async () => {
    const client = weighClient(() => open(opened === 0 ? null : workshop)), heard: string[] = [];
    void client.ask(FILE, 'flat', positions).then(() => { heard.push('first'); });
    await client.ask(FILE, 'tube', positions);
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(heard).toEqual([]);
    expect([opened, closed]).toEqual([2, 2]);
  });

  it('gives nothing for a fault, a worker that dies and one that cannot be opened', async () => {
    expect(await weighClient(() => open({ ...workshop, weigh: () => { throw new Error('no scales'); } })).ask(FILE, 'tube', positions)).toBeNull();
    const lost = weighClient(() => open(null)).ask(FILE, 'tube', positions);
    links.at(-1)!.onDeath?.('out of memory');
    expect(await lost).toBeNull();
    expect(await weighClient(() => { throw new Error('no workers here'); }).ask(FILE, 'tube', positions)).toBeNull();
  });
});
