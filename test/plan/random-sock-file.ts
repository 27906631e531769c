import type { Random } from '../../src/base/random.ts';
import { randomPick, randomWhole } from '../../src/base/random.ts';
import type { SockFile, ToeRate } from '../../src/plan/sock-file.ts';

const YARN_STARTS = ['leg', 'ankle', 'heel', 'foot', 'toe'] as const;

const maybe = (random: Random): boolean => random() < 0.5;

/** Rates that take about a third to two thirds of a bed's stitches. */
function randomSchedule(random: Random, stitches: number): readonly ToeRate[] {
  const rates = randomWhole(random, 1, 3);
  return Array.from({ length: rates }, () => ({
    passes: 2 * randomWhole(random, 1, 4), times: Math.max(1, Math.round(stitches / 4 * (0.35 + 0.3 * random()) / rates)),
  }));
}

/** A sock file within every limit of single fields; most, not all, can be knitted. */
export function randomSockFile(random: Random): SockFile {
  const stitchesPer10cm = randomWhole(random, 12, 70), ballGirthMm = randomWhole(random, 120, 320);
  // Near enough to the stitches that the girth will come to.
  const stitches = 0.9 * ballGirthMm * stitchesPer10cm / 100;
  return {
    heelwright: 1,
    gauge: { stitchesPer10cm, rowsPer10cm: Math.round(stitchesPer10cm * (1.2 + 0.5 * random())) },
    foot: {
      ballGirthMm,
      ...(maybe(random)
        ? { lengthMm: randomWhole(random, 110, 340) }
        : { shoeSize: { system: 'uk' as const, value: randomWhole(random, 2, 28) / 2 } }),
      ...(maybe(random) ? { side: randomPick(random, ['left', 'right'] as const) } : {}),
    },
    ...(maybe(random) ? { ease: { girthPercent: randomWhole(random, -25, 5), lengthPercent: randomWhole(random, -8, 4) } } : {}),
    leg: { kind: randomPick(random, ['flat-rib', 'tube'] as const), lengthMm: randomWhole(random, 0, 300), gatherBed: randomPick(random, ['front', 'back'] as const) },
    heel: {
      wraps: maybe(random),
      plateauPasses: 2 * randomWhole(random, 0, 4),
      ...(maybe(random) ? { turnDownWidth: 2 * randomWhole(random, 1, 14) } : {}),
      ...(maybe(random) ? { stitches: Math.min(600, Math.max(4, 2 * Math.round(stitches * (0.25 + 0.1 * random())))) } : {}),
    },
    toe: {
      kind: randomPick(random, ['decreased', 'short-row'] as const),
      closing: randomPick(random, ['graft', 'bind-off'] as const),
      passesPerDecrease: 2 * randomWhole(random, 1, 4),
      ...(maybe(random) ? { slantStitches: 2 * randomWhole(random, 0, 4) } : {}),
      ...randomPick(random, [() => ({}), () => ({ tipStitches: 2 * randomWhole(random, 1, 14) }), () => ({ schedule: randomSchedule(random, stitches) })])(),
    },
    ...(maybe(random) ? { yarns: [{ from: randomPick(random, YARN_STARTS), colour: '#abc' }, { name: 'other', stripePasses: 6 }] } : {}),
    machine: { needlesPerBed: randomWhole(random, 60, 400), needlePitchMm: 5 },
    ...(maybe(random) ? { cloth: { firmness: randomPick(random, ['soft', 'medium', 'firm'] as const) } } : {}),
  };
}
