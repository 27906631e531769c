import { expect, it } from 'vitest';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { PosedSock } from '../../src/pipeline/result.ts';
import type { PoseName } from '../../src/shape/index.ts';
import type { FIRMNESS} from '../../src/shape/cloth-table.ts';
import { firmLaw, SOCK_CLOTH } from '../../src/shape/cloth-table.ts';
import { strainStiffness } from '../../src/solve/membrane-law.ts';
import { SMALL_SOCK } from './small-sock.ts';

const FIRM = ['soft', 'medium', 'firm'] as const;

function pose(firmness: keyof typeof FIRMNESS, name: PoseName): PosedSock {
  const { sock } = knitSock({ ...SMALL_SOCK, cloth: { firmness } });
  if (sock === null) throw new Error('the small sock cannot be knitted');
  return poseSock(sock, name);
}

// Published ranges for plain knits: 17 to 65 N/m at rest, twice as much along wales, 3 to 8 times stiffer at 17 % strain.
it.each(FIRM)('%s cloth is as stiff as plain knits are measured to be', (firmness) => {
  const { courseModulus, waleModulus, ...curve } = firmLaw(SOCK_CLOTH.law, firmness), atRest = strainStiffness(0, curve);
  for (const modulus of [courseModulus, waleModulus]) {
    expect(1000 * modulus * atRest).toBeGreaterThan(17);
    expect(1000 * modulus * atRest).toBeLessThan(65);
  }
  expect(waleModulus / courseModulus).toBeCloseTo(2, 1);
  expect(strainStiffness(0.17, curve) / atRest).toBeGreaterThan(3);
  expect(strainStiffness(0.17, curve) / atRest).toBeLessThan(8);
});

// Statics: the weights are the same, so what is firmer gives less.
it('under the same weights firm cloth hangs less far below the beds', () => {
  const [soft, medium, firm] = FIRM.map((firmness) => {
    const { positions } = pose(firmness, 'beds').pose;
    return -Math.min(...positions.filter((_, i) => i % 3 === 2));
  });
  expect(medium).toBeLessThan(soft);
  expect(firm).toBeLessThan(medium);
});

// No force from outside acts in the plane of a sock laid flat, and all of its own grow alike: its shape cannot change.
it('laid flat a sock has one shape, whatever its firmness', () => {
  const soft = pose('soft', 'flat').measures, firm = pose('firm', 'flat').measures;
  for (const key of ['footGirthMm', 'throatToHeelMm', 'legFootAngleDeg', 'heelTipGirthMm'] as const) {
    expect((firm[key] ?? NaN) / (soft[key] ?? NaN)).toBeCloseTo(1, 2);
  }
});
