import type { Problem } from '../base/problem.ts';
import type { Settings } from './page-state.ts';
import { formatLengthNumber, gaugeScale, lengthScale } from './units.ts';
import type { LengthUnit, Scale } from './units.ts';

type UnitSettings = Pick<Settings, 'lengthUnit' | 'gaugeUnit' | 'patchWidthMm' | 'patchHeightMm'>;

const NUMBER = '-?\\d+(?:\\.\\d+)?';
/** `60 to 400 mm`, `-12 mm`. */
const LENGTHS = new RegExp(`(?:(${NUMBER}) to )?(${NUMBER}) mm\\b`, 'g');
/** `0.300 st/mm`, `0.42 rows/mm`. */
const DENSITIES = new RegExp(`(${NUMBER}) (st|rows)/mm\\b`, 'g');
/** `: 5, but it must be a number from 60 to 400 mm`: only the last number has its unit beside it. */
const OUT_OF_LIMITS = new RegExp(`: (${NUMBER}), but it must be (.*?)from (${NUMBER}) to (${NUMBER}) \\w+`);

/** Names of fields that a rule may send a person to, as the panel has them. */
const FIELD_WORDS: Readonly<Record<string, string>> = {
  'counts.stitches': 'the stitches round, by hand', 'counts.footPasses': 'the foot passes, by hand',
  'foot.shoeSize': 'a shoe size', 'foot.lengthMm': 'the foot’s length', 'foot.ballGirthMm': 'the ball girth',
};

/** Lengths and densities of a sentence, given in millimetres, in the unit that the person reads. */
export function inUnitsOf(text: string, unit: LengthUnit): string {
  const perUnit = unit === 'cm' ? 10 : 25.4;
  return text
    .replace(LENGTHS, (_all, from: string | undefined, to: string) => {
      const start = from === undefined ? '' : `${formatLengthNumber(Number(from), unit)} to `;
      return `${start}${formatLengthNumber(Number(to), unit)} ${unit}`;
    })
    .replace(DENSITIES, (_all, count: string, what: string) => `${(Number(count) * perUnit).toFixed(2)} ${what}/${unit}`);
}

/** A number keeps its sign of per cent and its centimetres on its line. */
export function unbroken(text: string): string {
  return text.replace(/(\d) (%|cm\b|mmHg\b)/g, '$1\u00a0$2');
}

/** What is wrong and what is allowed, in the page's words and the units on its controls. Of a remark, what would not surprise. */
export function problemWords(problem: Problem, settings: UnitSettings, allowedWord: 'Allowed' | 'Expected' = 'Allowed'): string {
  const allowed = problem.allowed === null || problem.message.includes(problem.allowed) ? '' : ` ${allowedWord}: ${problem.allowed}.`;
  // The needles' pitch is in millimetres everywhere.
  if (problem.field === 'machine.needlePitchMm') return `${problem.message}${allowed}`;
  const scale = scaleOf(problem.field, settings);
  const message = scale === null ? problem.message : inScale(problem.message, scale);
  const words = inUnitsOf(`${message}${allowed}`, settings.lengthUnit);
  return words.replace(/\b[a-z]+\.[a-zA-Z]+\b/g, (path) => FIELD_WORDS[path] ?? path);
}

/** The scale of the control on which a value out of limits was typed, where it is not the file's own. */
function scaleOf(field: string | null, settings: UnitSettings): Scale | null {
  switch (field) {
    case 'gauge.stitchesPer10cm': return gaugeScale(settings.gaugeUnit, settings.patchWidthMm);
    case 'gauge.rowsPer10cm': return gaugeScale(settings.gaugeUnit, settings.patchHeightMm);
    default: return field?.endsWith('Mm') === true ? lengthScale(settings.lengthUnit) : null;
  }
}

function inScale(message: string, scale: Scale): string {
  return message
    .replace(OUT_OF_LIMITS, (_all, value: string, what: string, from: string, to: string) =>
      `: ${scale.toShown(Number(value))}, but it must be ${what}${limitsIn(scale, from, to)}`)
    .replace(/ in 10 cm\b/g, ` ${scale.unit}`);
}

/** Rounded inwards, so that the limits named can be typed. */
function limitsIn(scale: Scale, from: string, to: string): string {
  const unit = 10 ** scale.decimals;
  const least = Math.ceil(scaled(scale, from) * unit - 1e-9) / unit, most = Math.floor(scaled(scale, to) * unit + 1e-9) / unit;
  return `from ${least} to ${most} ${scale.unit}`;
}

/** The file's number in the shown unit, unrounded: `toShown` rounds. */
function scaled(scale: Scale, inFile: string): number {
  return Number(inFile) / scale.toFile(1);
}
