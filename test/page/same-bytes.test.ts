import { expect, it } from 'vitest';
import { fingerprint } from '../../src/base/fingerprint.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import { readSock } from '../../src/plan/read-sock.ts';
import { openSmallSock, settled, SMALL_SOCK } from './sock-page.ts';

const POSES = [['flat', 'Laid flat'], ['tube', 'Tube'], ['beds', 'On the beds'], ['worn', 'Worn']] as const;

// IEEE 754: sums, products, quotients and square roots are the same to the bit everywhere; nothing else may be used.
it('the browser finds the very bytes that Node finds, in every pose', async () => {
  const { page } = await openSmallSock();
  const { file } = readSock(JSON.stringify(SMALL_SOCK)), sock = file === null ? null : knitSock(file).sock;
  if (sock === null) throw new Error('the small sock cannot be knitted');
  for (const [pose, name] of POSES) {
    await page.getByRole('radio', { name, exact: true }).check();
    await settled(page);
    const seen = await page.evaluate(() => ({ pose: window.heelwright?.pose, status: window.heelwright?.poseStatus, bytes: window.heelwright?.fingerprint }));
    const { positions } = poseSock(sock, pose).pose;
    expect(seen).toEqual({ pose, status: 'converged', bytes: fingerprint(positions) });
    // It can fail: a change in the last place of one number shows.
    const other = positions.slice();
    other[7] *= 1 + 2.3e-16;
    expect(fingerprint(other)).not.toBe(seen.bytes);
  }
});
