import { expect, test } from 'vitest';
import { adviseSock } from '../../src/choose/advise-sock.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

/**
 * Advice weighs counts and gauge; the relaxed sock on the foot knows nothing of that. A foot with the
 * survey's ratio at the 95th percentile, 1.447 (Gordon C. C. et al., NATICK/TR-15/007, 2014), at a
 * coarse gauge: few loops, soon at rest.
 */
test('the advised heel is stretched less over a high instep, as the cells have it, than the sock as it stood', () => {
  const file: SockFile = { gauge: { stitchesPer10cm: 16, rowsPer10cm: 22 }, foot: { lengthMm: 240, ballGirthMm: 230, heelDiagonalMm: 1.447 * 230 }, leg: { lengthMm: 40 } };
  const stretchOf = (one: SockFile): number => {
    const { sock } = knitSock(one);
    return poseSock(sock!, 'worn').worn!.summary.heelToFootStretch!;
  };
  const { best, present } = adviseSock(file), asked = (misfits: typeof best[number]['misfits']): number => {
    const of = (what: string): number => 1 + misfits.find((misfit) => misfit.what === what)!.stretchPercent / 100;
    return of('heel-line') / of('foot-girth');
  };
  const before = stretchOf(file), after = stretchOf(best[0].file);
  expect(after).toBeLessThan(before);
  // By as much as counts and gauge say, within a third: there the line may shift where the foot is round.
  const foretold = asked(best[0].misfits) / asked(present!.misfits);
  expect(foretold).toBeLessThan(0.97);
  expect((1 - after / before) / (1 - foretold)).toBeGreaterThan(2 / 3);
  expect((1 - after / before) / (1 - foretold)).toBeLessThan(4 / 3);
});
