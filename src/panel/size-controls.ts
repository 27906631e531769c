import type { MeasureName } from '../foot/foot-measures.ts';
import type { ShoeSystem, SockFile } from '../plan/sock-file.ts';
import type { ControlContext, FolderSpec, NumberSpec } from './control-spec.ts';
import { readField, writeField } from './field-path.ts';
import { isBelowAdults } from './fit-words.ts';
import { formatLength, formatLengthNumber, gaugeScale, lengthScale, plainScale } from './units.ts';
import type { GaugeUnit } from './units.ts';

/** Where a length starts that has not been given; chosen by eye. */
const USUAL_FOOT_MM = 260;

const SHOE_NAMES: Readonly<Record<string, ShoeSystem | 'measured'>> = {
  'the foot, measured': 'measured', 'shoe size, continental': 'continental', 'shoe size, UK': 'uk',
  'shoe size, US women': 'us-women', 'shoe size, US men': 'us-men', 'mondopoint': 'mondopoint',
};

export const footFolder: FolderSpec = {
  title: 'Foot', isOpen: true,
  controls: [
    {
      kind: 'choice', field: 'foot.shoeSize.system', label: 'Length from', choices: SHOE_NAMES,
      hint: 'A measured foot is best: a shoe size tells its length to half a size at most.',
      planned: () => 'measured', write: chooseLengthSource,
    },
    {
      ...bodyLength('foot.lengthMm', 'Foot length', ({ foot }) => foot?.lengthMm ?? null), usual: [140, 320],
      isShown: (context) => shoeSystem(context) === null,
      write: (context, value) => writeField(writeField(context.file, 'foot.shoeSize', undefined), 'foot.lengthMm', value),
    },
    {
      kind: 'number', field: 'foot.shoeSize.value', label: 'Shoe size', planned: () => null,
      scale: (context) => (shoeSystem(context) === 'mondopoint' ? plainScale(footWords(context), 5) : plainScale(footWords(context), 0.5, 1)),
      hint: 'A shoe size leaves the length of the foot open by so much, at best.',
      isShown: (context) => shoeSystem(context) !== null,
    },
    { ...bodyLength('foot.ballGirthMm', 'Ball girth', () => null, 'Round the ball of the foot, standing.'), usual: [140, 310] },
    {
      ...optionalMeasure('heelDiagonalMm', 'Heel to instep', 'Round the back of the heel where it meets the floor and over the front of the ankle: the girth that has to pass when the sock is put on.'),
      usual: [200, 420],
    },
    { ...optionalMeasure('ankleGirthMm', 'Ankle girth', 'The least girth above the ankle bones.'), usual: [140, 320] },
    { ...optionalMeasure('calfGirthMm', 'Calf girth', 'The widest of the lower leg. Lower down the leg is worked out from it and the ankle.'), usual: [160, 480] },
    { ...optionalMeasure('heelBreadthMm', 'Heel breadth', 'Across the heel where it is broadest, standing.'), usual: [40, 100] },
    {
      kind: 'choice', field: 'foot.arch', label: 'Arch', choices: { low: 'low', usual: 'usual', high: 'high' }, planned: () => 'usual',
      hint: 'How high the arch stands. It tells of the instep where heel to instep is not measured.',
    },
    {
      kind: 'choice', field: 'foot.toes', label: 'Toes, taken together', planned: () => 'sloping',
      choices: { 'sloping from the great toe': 'sloping', 'pointed, longest in the middle': 'pointed', 'square, all alike': 'square' },
    },
    { kind: 'choice', field: 'foot.side', label: 'Side', choices: { 'right foot': 'right', 'left foot': 'left' }, planned: () => 'right', hint: 'A slanted toe is for one foot only.' },
    {
      kind: 'number', field: 'ease.girthPercent', label: 'Ease round', scale: () => plainScale('%', 1),
      planned: ({ defaults }) => defaults.girthEasePercent, hint: 'How much wider than the foot. Less than nothing: the sock clings. Plain knitting: about -10 %.',
    },
    {
      kind: 'number', field: 'ease.lengthPercent', label: 'Ease along', scale: () => plainScale('%', 1),
      planned: ({ defaults }) => defaults.lengthEasePercent, hint: 'How much longer than the foot.',
    },
  ],
};

function bodyLength(field: string, label: string, planned: NumberSpec['planned'], hint?: string): NumberSpec {
  return { kind: 'number', field, label, planned, scale: ({ settings }) => lengthScale(settings.lengthUnit), ...(hint === undefined ? {} : { hint }) };
}

/** A measure that may be missing: its estimate stands under it, and is where it starts when it is given. */
function optionalMeasure(name: MeasureName, label: string, hint: string): NumberSpec {
  return {
    ...bodyLength(`foot.${name}`, label, () => null, hint), freedom: 'optional',
    note: (context) => (readField(context.file, `foot.${name}`) === undefined ? estimateWords(context, name) : null),
    startsAt: ({ foot }) => Math.round(foot?.measures[name].valueMm ?? 0),
  };
}

/** `about 33.9 cm, two feet in three within 0.8`: a standard deviation to each side holds two thirds of a normal distribution. */
export function estimateWords({ foot, settings: { lengthUnit } }: Pick<ControlContext, 'foot' | 'settings'>, name: MeasureName): string | null {
  const estimate = foot?.measures[name];
  if (estimate === undefined || estimate.isGiven) return null;
  if (isBelowAdults(foot?.lengthMm)) return `about ${formatLength(estimate.valueMm, lengthUnit)}, scaled from adults`;
  return `about ${formatLength(estimate.valueMm, lengthUnit)}, two feet in three within ${formatLengthNumber(estimate.sdMm, lengthUnit)}`;
}

/** `24.7 ± 0.3 cm`: the foot that a shoe size stands for. */
function footWords({ foot, settings }: ControlContext): string {
  if (foot?.lengthMm == null) return '';
  const { lengthUnit } = settings;
  return `${formatLengthNumber(foot.lengthMm, lengthUnit)} ± ${formatLengthNumber(foot.lengthToleranceMm, lengthUnit)} ${lengthUnit}`;
}

function shoeSystem({ file }: ControlContext): ShoeSystem | null {
  return file.foot?.shoeSize?.system ?? null;
}


/** From a measured length to the nearest size, and back to the length that the size stands for. */
function chooseLengthSource(context: ControlContext, value: unknown): SockFile {
  const { file, foot, shoeSizeOf } = context;
  const lengthMm = foot?.lengthMm ?? USUAL_FOOT_MM;
  if (value === 'measured') {
    return writeField(writeField(file, 'foot.shoeSize', undefined), 'foot.lengthMm', Math.round(lengthMm));
  }
  const system = value as ShoeSystem;
  return writeField(writeField(file, 'foot.lengthMm', undefined), 'foot.shoeSize', { system, value: shoeSizeOf(system, lengthMm) });
}

const GAUGE_NAMES: Readonly<Record<string, GaugeUnit>> = { 'in 10 cm': '10cm', 'to the inch': 'inch', 'over a patch': 'patch' };
const isPatch = ({ settings }: ControlContext): boolean => settings.gaugeUnit === 'patch';

export const gaugeFolder: FolderSpec = {
  title: 'Gauge, washed and rested', isOpen: true,
  controls: [
    {
      kind: 'choice', field: 'page.gaugeUnit', label: 'Counted', choices: GAUGE_NAMES,
      planned: ({ settings }) => settings.gaugeUnit, choose: (value) => ({ gaugeUnit: value as GaugeUnit }),
    },
    {
      kind: 'number', field: 'page.patchWidthMm', label: 'Patch width', isShown: isPatch,
      scale: ({ settings }) => lengthScale(settings.lengthUnit), planned: ({ settings }) => settings.patchWidthMm,
      choose: (value) => ({ patchWidthMm: value as number }),
    },
    {
      kind: 'number', field: 'gauge.stitchesPer10cm', label: 'Stitches', planned: () => null, usual: [12, 60],
      scale: ({ settings }) => gaugeScale(settings.gaugeUnit, settings.patchWidthMm),
    },
    {
      kind: 'number', field: 'page.patchHeightMm', label: 'Patch height', isShown: isPatch,
      scale: ({ settings }) => lengthScale(settings.lengthUnit), planned: ({ settings }) => settings.patchHeightMm,
      choose: (value) => ({ patchHeightMm: value as number }),
    },
    {
      kind: 'number', field: 'gauge.rowsPer10cm', label: 'Rows', planned: () => null, usual: [16, 80],
      scale: ({ settings }) => gaugeScale(settings.gaugeUnit, settings.patchHeightMm),
    },
    {
      kind: 'choice', field: 'cloth.firmness', label: 'Fabric firmness', choices: { soft: 'soft', medium: 'medium', firm: 'firm' },
      planned: ({ defaults }) => defaults.firmness,
      hint: 'Loose knitting in soft yarn bends and stretches easily; a tight gauge or a hard yarn gives less. No count changes, only the shape.',
    },
    {
      kind: 'number', field: 'gauge.ribWidthFactor', label: 'Rib width', scale: () => plainScale('of plain', 0.01, 2),
      planned: ({ defaults }) => defaults.ribWidthFactor, hint: 'Width of the resting rib over that of plain knitting of as many stitches.',
      isShown: ({ file }) => file.leg?.kind !== 'tube',
    },
  ],
};
