import type { MeasureName } from '../foot/foot-measures.ts';
import type { ShoeSystem, SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import { namedChoices } from './control-spec.ts';
import type { ControlContext, FieldWords, FolderSpec, NumberSpec } from './control-spec.ts';
import { readField, writeField } from './field-path.ts';
import { isBelowAdults } from './fit-words.ts';
import { formatLength, formatLengthNumber, gaugeScale, lengthScale, plainScale } from './units.ts';
import type { GaugeUnit } from './units.ts';

/** Where a length starts that has not been given; chosen by eye. */
const USUAL_FOOT_MM = 260;

/** Where the foot's length comes from, and its measures. */
export function footFolder(): FolderSpec {
  const { fields, choices, folders } = pageWords().controls;
  return {
    title: folders.foot, isOpen: true,
    controls: [
      {
        kind: 'choice', field: 'foot.shoeSize.system', ...fields.lengthSource, choices: namedChoices(choices.lengthSource),
        planned: () => 'measured', write: chooseLengthSource,
      },
      {
        ...bodyLength('foot.lengthMm', fields.footLength, ({ foot }) => foot?.lengthMm ?? null), usual: [140, 320],
        isShown: (context) => shoeSystem(context) === null,
        write: (context, value) => writeField(writeField(context.file, 'foot.shoeSize', undefined), 'foot.lengthMm', value),
      },
      {
        kind: 'number', field: 'foot.shoeSize.value', ...fields.shoeSize, planned: () => null,
        scale: (context) => (shoeSystem(context) === 'mondopoint' ? plainScale(footWords(context), 5) : plainScale(footWords(context), 0.5, 1)),
        isShown: (context) => shoeSystem(context) !== null,
      },
      { ...bodyLength('foot.ballGirthMm', fields.ballGirth, () => null), usual: [140, 310] },
      { ...optionalMeasure('heelDiagonalMm', fields.heelDiagonal), usual: [200, 420] },
      { ...optionalMeasure('ankleGirthMm', fields.ankleGirth), usual: [140, 320] },
      { ...optionalMeasure('calfGirthMm', fields.calfGirth), usual: [160, 480] },
      { ...optionalMeasure('heelBreadthMm', fields.heelBreadth), usual: [40, 100] },
      { kind: 'choice', field: 'foot.arch', ...fields.arch, choices: namedChoices(choices.arch), planned: () => 'usual' },
      { kind: 'choice', field: 'foot.toes', ...fields.toes, planned: () => 'sloping', choices: namedChoices(choices.toes) },
      { kind: 'choice', field: 'foot.side', ...fields.side, choices: namedChoices(choices.side), planned: () => 'right' },
      { kind: 'number', field: 'ease.girthPercent', ...fields.girthEase, scale: () => plainScale('%', 1), planned: ({ defaults }) => defaults.girthEasePercent },
      { kind: 'number', field: 'ease.lengthPercent', ...fields.lengthEase, scale: () => plainScale('%', 1), planned: ({ defaults }) => defaults.lengthEasePercent },
    ],
  };
}

function bodyLength(field: string, words: FieldWords, planned: NumberSpec['planned']): NumberSpec {
  return { kind: 'number', field, ...words, planned, scale: ({ settings }) => lengthScale(settings.lengthUnit) };
}

/** A measure that may be missing: its estimate stands under it, and is where it starts when it is given. */
function optionalMeasure(name: MeasureName, words: FieldWords): NumberSpec {
  return {
    ...bodyLength(`foot.${name}`, words, () => null), freedom: 'optional',
    note: (context) => (readField(context.file, `foot.${name}`) === undefined ? estimateWords(context, name) : null),
    startsAt: ({ foot }) => Math.round(foot?.measures[name].valueMm ?? 0),
  };
}

/** `about 33.9 cm, two feet in three within 0.8`: a standard deviation to each side holds two thirds of a normal distribution. */
export function estimateWords({ foot, settings: { lengthUnit } }: Pick<ControlContext, 'foot' | 'settings'>, name: MeasureName): string | null {
  const estimate = foot?.measures[name];
  if (estimate === undefined || estimate.isGiven) return null;
  const words = pageWords().controls, about = formatLength(estimate.valueMm, lengthUnit);
  return isBelowAdults(foot?.lengthMm) ? words.estimateFromAdults(about) : words.estimate(about, formatLengthNumber(estimate.sdMm, lengthUnit));
}

/** `24.7 ± 0.3 cm`: the foot that a shoe size stands for. */
function footWords({ foot, settings }: ControlContext): string {
  if (foot?.lengthMm == null) return '';
  const { lengthUnit } = settings;
  return pageWords().controls.shoeLength(formatLengthNumber(foot.lengthMm, lengthUnit), formatLengthNumber(foot.lengthToleranceMm, lengthUnit), lengthUnit);
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

const isPatch = ({ settings }: ControlContext): boolean => settings.gaugeUnit === 'patch';

export function gaugeFolder(): FolderSpec {
  const { fields, choices, folders, units } = pageWords().controls;
  return {
    title: folders.gauge, isOpen: true,
    controls: [
      {
        kind: 'choice', field: 'page.gaugeUnit', ...fields.counted, choices: namedChoices(choices.counted),
        planned: ({ settings }) => settings.gaugeUnit, choose: (value) => ({ gaugeUnit: value as GaugeUnit }),
      },
      {
        kind: 'number', field: 'page.patchWidthMm', ...fields.patchWidth, isShown: isPatch,
        scale: ({ settings }) => lengthScale(settings.lengthUnit), planned: ({ settings }) => settings.patchWidthMm,
        choose: (value) => ({ patchWidthMm: value as number }),
      },
      {
        kind: 'number', field: 'gauge.stitchesPer10cm', ...fields.stitchGauge, planned: () => null, usual: [12, 60],
        scale: ({ settings }) => gaugeScale(settings.gaugeUnit, settings.patchWidthMm),
      },
      {
        kind: 'number', field: 'page.patchHeightMm', ...fields.patchHeight, isShown: isPatch,
        scale: ({ settings }) => lengthScale(settings.lengthUnit), planned: ({ settings }) => settings.patchHeightMm,
        choose: (value) => ({ patchHeightMm: value as number }),
      },
      {
        kind: 'number', field: 'gauge.rowsPer10cm', ...fields.rowGauge, planned: () => null, usual: [16, 80],
        scale: ({ settings }) => gaugeScale(settings.gaugeUnit, settings.patchHeightMm),
      },
      { kind: 'choice', field: 'cloth.firmness', ...fields.firmness, choices: namedChoices(choices.firmness), planned: ({ defaults }) => defaults.firmness },
      {
        kind: 'number', field: 'gauge.ribWidthFactor', ...fields.ribWidth, scale: () => plainScale(units.ofPlain, 0.01, 2),
        planned: ({ defaults }) => defaults.ribWidthFactor, isShown: ({ file }) => file.leg?.kind !== 'tube',
      },
    ],
  };
}
