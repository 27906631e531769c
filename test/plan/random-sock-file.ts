import type { Random } from '../../src/base/random.ts';
import { randomPick, randomWhole } from '../../src/base/random.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

const YARN_STARTS = ['leg', 'ankle', 'heel', 'foot', 'toe'] as const;

const maybe = (random: Random): boolean => random() < 0.5;

/** A sock file within every limit of single fields; most, not all, can be knitted. */
export function randomSockFile(random: Random): SockFile {
  const stitchesPer10cm = randomWhole(random, 12, 70);
  return {
    heelwright: 1,
    gauge: { stitchesPer10cm, rowsPer10cm: Math.round(stitchesPer10cm * (1.2 + 0.5 * random())) },
    foot: {
      ballGirthMm: randomWhole(random, 120, 320),
      ...(maybe(random)
        ? { lengthMm: randomWhole(random, 110, 340) }
        : { shoeSize: { system: 'uk' as const, value: randomWhole(random, 2, 28) / 2 } }),
    },
    ...(maybe(random) ? { ease: { girthPercent: randomWhole(random, -25, 5), lengthPercent: randomWhole(random, -8, 4) } } : {}),
    leg: { kind: randomPick(random, ['flat-rib', 'tube'] as const), lengthMm: randomWhole(random, 0, 300), gatherBed: randomPick(random, ['front', 'back'] as const) },
    heel: {
      wraps: maybe(random),
      plateauPasses: 2 * randomWhole(random, 0, 4),
      ...(maybe(random) ? { turnDownWidth: 2 * randomWhole(random, 1, 14) } : {}),
    },
    toe: {
      kind: randomPick(random, ['decreased', 'short-row'] as const),
      closing: randomPick(random, ['graft', 'bind-off'] as const),
      passesPerDecrease: 2 * randomWhole(random, 1, 4),
      ...(maybe(random) ? { tipStitches: 2 * randomWhole(random, 1, 14) } : {}),
    },
    ...(maybe(random) ? { yarns: [{ from: randomPick(random, YARN_STARTS), colour: '#abc' }, { name: 'other', stripePasses: 6 }] } : {}),
    machine: { needlesPerBed: randomWhole(random, 60, 400), needlePitchMm: 5 },
    ...(maybe(random) ? { cloth: { firmness: randomPick(random, ['soft', 'medium', 'firm'] as const) } } : {}),
  };
}
