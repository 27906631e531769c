import { afterEach, describe, expect, it } from 'vitest';
import { adviseInSteps } from '../../src/choose/advise-sock.ts';
import { gradeSock } from '../../src/choose/grade-sock.ts';
import { startGrower } from '../../src/pipeline/grow-sock.ts';
import type { Attention } from '../../src/pipeline/grow-sock.ts';
import type { Keyframe } from '../../src/pipeline/hang-at.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { measureLaidYarn } from '../../src/pipeline/measure-laid-yarn.ts';
import { poseInSteps } from '../../src/pipeline/pose-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import type { OpenPort } from '../../src/worker/client.ts';
import { growthClient } from '../../src/worker/growth-client.ts';
import type { GrowthClient } from '../../src/worker/growth-client.ts';
import { serve } from '../../src/worker/serve.ts';
import type { Workshop } from '../../src/worker/serve.ts';

const FILE: SockFile = { gauge: { stitchesPer10cm: 14, rowsPer10cm: 20 }, counts: { stitches: 16, legPasses: 4, footPasses: 4 }, heel: { turnDownWidth: 4 } };
const workshop: Workshop = { knit: knitSock, pose: poseInSteps, weigh: measureLaidYarn, advise: adviseInSteps, grow: startGrower, grade: gradeSock };

interface Link extends OpenPort { isClosed: boolean }
const links: Link[] = [];
afterEach(() => { for (const link of links.splice(0)) link.close(); });

function connect(work: Workshop = workshop): GrowthClient {
  return growthClient(() => {
    const { port1, port2 } = new MessageChannel();
    serve(port2, work);
    const link: Link = { port: port1, isClosed: false, close: () => { link.isClosed = true; port1.close(); port2.close(); }, onDeath: null };
    links.push(link);
    return link;
  });
}

interface Heard { readonly keyframes: Keyframe[]; progress: number; failure: string | null }

function grow(client: GrowthClient, attention: Attention, file = FILE): Heard {
  const heard: Heard = { keyframes: [], progress: 0, failure: null };
  client.grow(file, attention, {
    onKeyframe: (keyframe, progress) => { heard.keyframes.push(keyframe); heard.progress = progress; },
    onFailed: (message) => { heard.failure = message; },
  });
  return heard;
}

const until = (isSo: () => boolean): Promise<void> => expect.poll(isSo, { timeout: 50_000, interval: 10 }).toBe(true);

describe('growth over a port', () => {
  it('sends shapes until all of the making is close enough, and goes on when an eye rests somewhere', async () => {
    const client = connect(), heard = grow(client, { pass: 6, isResting: false });
    await until(() => heard.progress === 1);
    expect(heard.keyframes[0]).toMatchObject({ pass: 6, quality: 0 });
    const before = heard.keyframes.length;
    client.attend({ pass: 9, isResting: true });
    await until(() => heard.keyframes.some(({ pass, quality }) => pass === 9 && quality === 2));
    expect(heard.keyframes.length).toBeLessThanOrEqual(before + 2);
    expect(heard.keyframes.every(({ positions }) => positions.every(Number.isFinite))).toBe(true);
  });

  it('an eye that rests does not wait for the rest of the making', async () => {
    const heard = grow(connect(), { pass: 10, isResting: true });
    await until(() => heard.keyframes.some(({ quality }) => quality === 2));
    const relaxed = heard.keyframes.filter(({ quality }) => quality > 0);
    expect(relaxed[0]).toMatchObject({ pass: 10, quality: 2 });
  });

  it('another sock closes the worker of the one before, whose shapes are heard no more', async () => {
    const client = connect(), old = grow(client, { pass: 3, isResting: false });
    await until(() => old.keyframes.length > 0);
    const next = grow(client, { pass: 3, isResting: false }, { ...FILE, counts: { ...FILE.counts, stitches: 20 } }), heard = old.keyframes.length;
    await until(() => next.keyframes.length > 3);
    expect(old.keyframes.length).toBe(heard);
    expect(links.map(({ isClosed }) => isClosed)).toEqual([true, false]);
    client.stop();
    expect(links[1].isClosed).toBe(true);
  });

  it('a sock that cannot be knitted, a broken stage and a worker that dies are told', async () => {
    const refused = grow(connect(), { pass: 0, isResting: false }, { ...FILE, counts: { stitches: 4 } });
    await until(() => refused.failure !== null);
    const broken = grow(connect({ ...workshop, grow: () => { throw new Error('out of yarn'); } }), { pass: 0, isResting: false });
    await until(() => broken.failure !== null);
    expect(broken.failure).toContain('out of yarn');
    const dead = grow(connect(), { pass: 0, isResting: false });
    links.at(-1)?.onDeath?.('gone');
    expect(dead.failure).toBe('gone');
    expect(links.at(-1)?.isClosed).toBe(true);
    const client = growthClient(() => { throw new Error('no workers here'); });
    expect(grow(client, { pass: 0, isResting: false }).failure).toContain('no workers here');
  });
});
