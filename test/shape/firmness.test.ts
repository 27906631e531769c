import { describe, expect, it } from 'vitest';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { KnittedSock, PosedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { clothOf, FIRMNESS, firmLaw, SOCK_CLOTH } from '../../src/shape/cloth-table.ts';
import type { Firmness } from '../../src/shape/cloth-table.ts';
import { setUpPose } from '../../src/shape/pose-problem.ts';
import { makeStartShape } from '../../src/shape/start-shape.ts';
import type { EnergyTerm } from '../../src/solve/index.ts';
import { strainStiffness } from '../../src/solve/membrane-law.ts';
import { SMALL_SOCK } from './small-sock.ts';

const EVERY = ['soft', 'medium', 'firm'] as const;

function knit(firmness: Firmness, changes: Partial<SockFile> = {}): KnittedSock {
  const { sock } = knitSock({ ...SMALL_SOCK, ...changes, cloth: { firmness } });
  if (sock === null) throw new Error('the small sock cannot be knitted');
  return sock;
}

describe.each(EVERY)('%s cloth', (firmness) => {
  // Published ranges for plain knits: 17 to 65 N/m at rest, about twice as much along wales, 3 to 8 times stiffer at 17 % strain.
  it('is as stiff as plain knits are measured to be', () => {
    const { courseModulus, waleModulus, ...curve } = clothOf(firmness).law, atRest = strainStiffness(0, curve);
    for (const modulus of [courseModulus, waleModulus]) {
      expect(1000 * modulus * atRest).toBeGreaterThan(17);
      expect(1000 * modulus * atRest).toBeLessThan(65);
    }
    expect(waleModulus / courseModulus).toBeCloseTo(2, 1);
    expect(strainStiffness(0.17, curve) / atRest).toBeGreaterThan(3);
    expect(strainStiffness(0.17, curve) / atRest).toBeLessThan(8);
  });

  // Energies are linear in their moduli. One that was left out would show: in any shape, a factor times the energy.
  it('stores, in any shape, its factor times the energy of soft cloth', () => {
    const { fabric } = knit(firmness), x = makeStartShape(fabric, 'round'), unused = new Float64Array(x.length);
    const clothEnergies = (of: Firmness): number[] => {
      const { terms, bending } = setUpPose(fabric, 'tube', of);
      return terms.slice(0, terms.indexOf(bending) + 1).map((term: EnergyTerm) => term.addGradient(x, unused));
    };
    const soft = clothEnergies('soft'), energies = clothEnergies(firmness);
    expect(energies).toHaveLength(3);
    energies.forEach((energy, i) => {
      expect(soft[i]).toBeGreaterThan(0);
      expect(energy / soft[i]).toBeCloseTo(FIRMNESS[firmness], 9);
    });
    expect(firmLaw(SOCK_CLOTH.law, firmness).coupling).toBe(SOCK_CLOTH.law.coupling);
  });
});

describe('firmer cloth', () => {
  /**
   * Statics: the same weights, so the same tension. It is the modulus times a force F(e) of the strain
   * that has F(0) = 0 and is convex (the cloth stiffens), so factor f on the modulus divides the
   * strain by f at most. Within the 20 % of strain here F grows no faster than e^1.5, so at least by f^(2/3).
   * Needles at the pitch of the stitches, so that nothing but the weights draws the cloth.
   */
  it('hangs less far below the beds, by nearly its factor', () => {
    const strains = EVERY.map((firmness) => {
      const sock = knit(firmness, {
        counts: { stitches: 36, legPasses: 40, footPasses: 48 }, leg: { kind: 'tube' }, machine: { needlePitchMm: 100 / 14, needlesPerBed: 60 },
      });
      const pass = sock.trace.passes.filter((record) => record.section === 'leg').length, { pose } = poseSock(sock, 'beds', { pass });
      expect(pose.status).toBe('converged');
      let hang = 0; // Of the cast-on, the first 36 loops, below the needles.
      for (let v = 0; v < 36; v++) hang -= pose.positions[3 * v + 2] / 36;
      return hang / (20 * 100 / 20) - 1; // 40 passes are 20 rounds, at 20 in 100 mm.
    });
    EVERY.slice(1).forEach((firmness, i) => {
      const falls = Math.log(strains[0] / strains[i + 1]) / Math.log(FIRMNESS[firmness]);
      expect(falls, firmness).toBeGreaterThan(2 / 3);
      expect(falls, firmness).toBeLessThan(1);
    });
  });

  const dimensions = ({ measures }: PosedSock): number[] =>
    [measures.footGirthMm, measures.footLengthMm, measures.throatToHeelMm, measures.heelTipGirthMm, measures.legFootAngleDeg].map((value) => value ?? NaN);

  // Statics: no force from outside acts in the plane of a sock laid flat, and all of the cloth's own grow alike, so their balance stays where it
  // was. The one that does not is the plates' against cells that gather, which holds a few cells at the heel's corners only.
  it('laid flat has the shape of soft cloth', () => {
    const [soft, ...others] = EVERY.map((firmness) => dimensions(poseSock(knit(firmness), 'flat')));
    for (const other of others) other.forEach((value, i) => { expect(Math.abs(value / soft[i] - 1)).toBeLessThan(0.01); });
  });

  // Statics: hoop tension is p r whatever the cloth, so hoop strain over that at rest (36 stitches round) falls by the factor, as hanging does.
  // The radius differs by 1 %, and a foot between heel and toe is no endless cylinder: 5 % for both.
  it('as a tube is rounded less by the same pressure, its girth nearer to that at rest by its factor', () => {
    const rest = 36 * 100 / 14;
    const [soft, firm] = (['soft', 'firm'] as const).map((firmness) => {
      const posed = poseSock(knit(firmness), 'tube');
      expect(posed.pose.status).toBe('converged');
      return (posed.measures.footGirthMm ?? NaN) / rest - 1;
    });
    expect(firm).toBeGreaterThan(0);
    expect(soft / firm).toBeGreaterThan(FIRMNESS.firm ** (2 / 3));
    expect(soft / firm).toBeLessThan(1.05 * FIRMNESS.firm);
  });
});
