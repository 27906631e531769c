import type { ShoeSystem, SockFile } from '../plan/sock-file.ts';
import type { ControlContext, FolderSpec, NumberSpec } from './control-spec.ts';
import { readField, writeField } from './field-path.ts';
import { formatLengthNumber, gaugeScale, lengthScale, plainScale } from './units.ts';
import type { GaugeUnit } from './units.ts';

/** Means of the adults in FACTS' survey, men and women, to the half centimetre: only where an optional measure starts. */
const USUAL_CALF_MM = 380;
const USUAL_HEEL_BREADTH_MM = 70;
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
      ...bodyLength('foot.heelDiagonalMm', 'Heel to instep', () => null, 'Round the tip of the heel and over the instep: the girth that has to pass when the sock is put on.'),
      freedom: 'optional', usual: [200, 420],
      // The survey's regression in FACTS: 3.9 + 0.720 length + 0.570 ball girth.
      startsAt: ({ file, foot }) => Math.round(3.9 + 0.72 * (foot?.lengthMm ?? USUAL_FOOT_MM) + 0.57 * (foot?.ballGirthMm ?? numberAt(file, 'foot.ballGirthMm') ?? 240)),
    },
    {
      ...bodyLength('foot.ankleGirthMm', 'Ankle girth', () => null, 'The least girth above the ankle bones.'), freedom: 'optional', usual: [140, 320],
      // Between the survey's regressions for men and women in FACTS: 34.6 + 0.773 and 45.4 + 0.747 ball girth.
      startsAt: ({ file }) => Math.round(40 + 0.76 * (numberAt(file, 'foot.ballGirthMm') ?? 240)),
    },
    { ...bodyLength('foot.calfGirthMm', 'Calf girth', () => null, 'Where the top of the leg will sit.'), freedom: 'optional', usual: [160, 480], startsAt: () => USUAL_CALF_MM },
    {
      ...bodyLength('foot.heelBreadthMm', 'Heel breadth', () => null, 'Across the heel where it is broadest, standing.'), freedom: 'optional', usual: [40, 100],
      startsAt: () => USUAL_HEEL_BREADTH_MM,
    },
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

/** `24.7 ± 0.3 cm`: the foot that a shoe size stands for. */
function footWords({ foot, settings }: ControlContext): string {
  if (foot?.lengthMm == null) return '';
  const { lengthUnit } = settings;
  return `${formatLengthNumber(foot.lengthMm, lengthUnit)} ± ${formatLengthNumber(foot.lengthToleranceMm, lengthUnit)} ${lengthUnit}`;
}

function shoeSystem({ file }: ControlContext): ShoeSystem | null {
  return file.foot?.shoeSize?.system ?? null;
}

function numberAt(file: SockFile, field: string): number | null {
  const value = readField(file, field);
  return typeof value === 'number' ? value : null;
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
