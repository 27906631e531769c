import { makeProblem } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import type { WornSummary } from '../measure/fit-answer.ts';
import type { Measures } from '../measure/measures.ts';
import type { KnittedSock, PosedSock } from '../pipeline/result.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { ComparedRow, SockComparison } from './comparison.ts';

/** The same pose of both. */
export interface PosedPair { readonly first: PosedSock; readonly second: PosedSock }

type Unit = ComparedRow['unit'];

const COUNTS = [
  ['stitches', 'Stitches round', 'stitches'], ['heelStitches', 'Stitches of the heel', 'stitches'], ['turnDownWidth', 'Turn-down width', 'stitches'],
  ['plateauPasses', 'Plateau passes', 'passes'], ['legPasses', 'Leg passes', 'passes'], ['anklePasses', 'Ankle passes', 'passes'], ['heelPasses', 'Heel passes', 'passes'],
  ['footPasses', 'Foot passes', 'passes'], ['toePasses', 'Toe passes', 'passes'], ['toeTipStitches', 'Stitches a bed at the tip', 'stitches'], ['toeDecreases', 'Decreases of the toe', ''],
] as const satisfies readonly (readonly [keyof Plan, string, Unit])[];

const MEASURES = [
  ['footLengthMm', 'foot length', 'mm'], ['heelDepthMm', 'heel depth', 'mm'], ['heelDiagonalMm', 'marked diagonal', 'mm'], ['heelTipGirthMm', 'heel-tip girth', 'mm'],
  ['throatToHeelMm', 'throat to heel', 'mm'], ['footGirthMm', 'foot girth', 'mm'], ['toeLengthMm', 'toe length', 'mm'], ['legLengthMm', 'leg length', 'mm'],
  ['toeTipWidthMm', 'width of the tip', 'mm'], ['legFootAngleDeg', 'angle of leg and foot', 'deg'],
] as const satisfies readonly (readonly [keyof Measures, string, Unit])[];

const STRETCHES = [
  ['widthMedianPercent', 'stretch in width, median'], ['width95Percent', 'stretch in width, a twentieth above'],
  ['lengthMedianPercent', 'stretch in length, median'], ['length95Percent', 'stretch in length, a twentieth above'],
] as const;

/** What a worn sock tells besides. */
const WORN = [
  ['topPressureMmHg', 'pressure at the top of the leg', 'mmHg'], ['anklePressureMmHg', 'pressure at the ankle', 'mmHg'], ['pressure95MmHg', 'pressure, a twentieth above', 'mmHg'],
  ['gapPercent', 'cloth that stands off', '%'], ['heelToFootStretch', 'stretch over the heel, times that of the foot', ''],
] as const satisfies readonly (readonly [keyof WornSummary, string, Unit])[];

const POSE_WORDS = { flat: 'Laid flat', tube: 'As a tube', beds: 'On the beds', worn: 'Worn' } as const;

function row(name: string, label: string, unit: Unit, first: number | null, second: number | null): ComparedRow {
  return { name, label, unit, first, second, difference: first === null || second === null ? null : second - first };
}

/**
 * Two socks side by side: counts, passes, yarn, measures at rest, and measures and stretch of each
 * pose that is given of both. Whatever they are: lengths are in mm, so socks of different gauges
 * compare too, and the remarks say what then means what.
 * @throws Error if the poses of a pair are not the same
 */
export function compareSocks(first: KnittedSock, second: KnittedSock, poses: readonly PosedPair[] = []): SockComparison {
  const of = (value: (sock: KnittedSock) => number): [number, number] => [value(first), value(second)];
  const all = (key: 'metres' | 'grams') => (sock: KnittedSock): number => sock.yarn.reduce((sum, yarn) => sum + yarn[key], 0);
  return {
    rows: [
      ...COUNTS.map(([name, label, unit]) => row(name, label, unit, ...of(({ plan }) => plan[name]))),
      row('passes', 'Passes in all', 'passes', ...of(({ trace }) => trace.passes.length - 1)),
      row('loops', 'Loops', '', ...of(({ trace }) => trace.loops)),
      row('yarnMetres', 'Yarn of a sock', 'm', ...of(all('metres'))),
      row('yarnGrams', 'Yarn of a sock', 'g', ...of(all('grams'))),
      ...compareMeasures('rest', 'By gauge', first.rest, second.rest),
      ...poses.flatMap(comparePose),
    ],
    remarks: [...remarkGauge(first, second), ...remarkMachine(first, second), ...remarkFoot(first, second), ...poses.flatMap(remarkRest)],
  };
}

function compareMeasures(pose: string, words: string, first: Measures, second: Measures): ComparedRow[] {
  return MEASURES.filter(([name]) => first[name] !== null || second[name] !== null)
    .map(([name, label, unit]) => row(`${pose}.${name}`, `${words}: ${label}`, unit, first[name], second[name]));
}

function comparePose({ first, second }: PosedPair): ComparedRow[] {
  const { name } = first.pose, words = POSE_WORDS[name];
  if (second.pose.name !== name) throw new Error(`compare-socks: ${name} against ${second.pose.name}`);
  return [
    ...compareMeasures(name, words, first.measures, second.measures),
    ...STRETCHES.map(([key, label]) => row(`${name}.${key}`, `${words}: ${label}`, '%', first.stretch.summary[key], second.stretch.summary[key])),
    ...(first.worn === null || second.worn === null ? [] : compareWorn(first.worn.summary, second.worn.summary)),
  ];
}

function compareWorn(first: WornSummary, second: WornSummary): ComparedRow[] {
  return WORN.map(([key, label, unit]) => row(`worn.${key}`, `${POSE_WORDS.worn}: ${label}`, unit, first[key], second[key]));
}

/** Shown values of both, and why they matter; null where they are the same. */
function remark(field: string, first: string | number, second: string | number, allowed: string, message: string): Problem[] {
  return first === second ? [] : [makeProblem(field, `${first} and ${second}`, allowed, message)];
}

function remarkGauge({ plan: first }: KnittedSock, { plan: second }: KnittedSock): Problem[] {
  const gauge = ({ stitchesPerMm, rowsPerMm }: Plan): string => `${Number((100 * stitchesPerMm).toFixed(2))} x ${Number((100 * rowsPerMm).toFixed(2))} in 10 cm`;
  return [
    ...remark('gauge', gauge(first), gauge(second), 'the same gauge, to compare counts', 'The two socks have different gauges: compare them in mm, not stitch by stitch or pass by pass.'),
    ...remark('gauge.ribWidthFactor', first.ribWidthFactor, second.ribWidthFactor, 'the same rib, to compare legs', 'The two ribs draw in differently: the legs differ in width for that alone.'),
    ...remark('cloth.firmness', first.firmness, second.firmness, 'the same cloth, to compare shapes', 'The two cloths are not equally firm: shapes and stretch differ for that alone.'),
  ];
}

function remarkMachine({ plan: first }: KnittedSock, { plan: second }: KnittedSock): Problem[] {
  const machine = ({ needlesPerBed, needlePitchMm }: Plan): string => `${needlesPerBed} needles at ${needlePitchMm} mm`;
  return remark('machine', machine(first), machine(second), 'the same machine, to knit both on it', 'The two socks are planned for different machines: check that both fit on yours.');
}

function remarkFoot({ foot: first }: KnittedSock, { foot: second }: KnittedSock): Problem[] {
  const foot = ({ lengthMm, ballGirthMm }: KnittedSock['foot']): string => [lengthMm, ballGirthMm].map((mm) => (mm === null ? 'no' : `${Number(mm.toFixed(1))} mm`)).join(' long, ').concat(' round');
  return remark('foot', foot(first), foot(second), 'the same foot, to judge which fits it', 'The two are on different feet.');
}

function remarkRest({ first, second }: PosedPair): Problem[] {
  const moving = [first, second].filter(({ pose }) => pose.status !== 'converged');
  if (moving.length === 0) return [];
  return [makeProblem(null, first.pose.name, 'shapes at rest', `${POSE_WORDS[first.pose.name]}, ${moving.length === 2 ? 'neither shape has' : `the ${moving[0] === first ? 'first' : 'second'} shape has not`} come to rest: differences may be off.`)];
}
