import type { Problem } from '../base/problem.ts';
import { pageWords } from '../words/page-words.ts';
import type { Settings } from './page-state.ts';
import { langOf, told } from './told.ts';
import { gaugeScale, lengthFigures, lengthScale } from './units.ts';
import type { LengthUnit, Scale } from './units.ts';

type UnitSettings = Pick<Settings, 'lengthUnit' | 'gaugeUnit' | 'patchWidthMm' | 'patchHeightMm'>;

const NUMBER = '-?\\d+(?:\\.\\d+)?';
/** `60 to 400 mm`, `-12 mm`. */
const LENGTHS = new RegExp(`(?:(${NUMBER}) to )?(${NUMBER}) mm\\b`, 'g');
/** `0.300 st/mm`, `0.42 rows/mm`. */
const DENSITIES = new RegExp(`(${NUMBER}) (st|rows)/mm\\b`, 'g');
/** `: 5, but it must be a number from 60 to 400 mm`: only the last number has its unit beside it. */
const OUT_OF_LIMITS = new RegExp(`: (${NUMBER}), but it must be (.*?)from (${NUMBER}) to (${NUMBER}) \\w+`);

/** Lengths and densities of a sentence of the core, given in millimetres, in the unit that the person reads: still in English. */
export function inUnitsOf(text: string, unit: LengthUnit): string {
  const perUnit = unit === 'cm' ? 10 : 25.4;
  return text
    .replace(LENGTHS, (_all, from: string | undefined, to: string) => {
      const start = from === undefined ? '' : `${lengthFigures(Number(from), unit)} to `;
      return `${start}${lengthFigures(Number(to), unit)} ${unit}`;
    })
    .replace(DENSITIES, (_all, count: string, what: string) => `${(Number(count) * perUnit).toFixed(2)} ${what}/${unit}`);
}

/** A number keeps its sign of per cent and its centimetres on its line. */
export function unbroken(text: string): string {
  return text.replace(/(\d) (%|cm\b|mmHg\b)/g, '$1\u00a0$2');
}

/** What is wrong and what is allowed, in the page's words and the units on its controls. Of a remark, what would not surprise. */
export function problemWords(problem: Problem, settings: UnitSettings, kind: 'allowed' | 'expected' = 'allowed'): string {
  const { message, allowed } = problemTexts(problem, settings), say = pageWords().messages;
  const words = allowed === null ? told(message) : `${told(message)} ${say[kind](told(allowed))}`;
  return words.replace(/\b[a-z]+\.[a-zA-Z]+\b/g, (path) => say.fields[path] ?? path);
}

/** For the `lang` of an element that shows these words: `en` where they stay English on a page that is not. */
export function problemLang(problem: Problem, settings: UnitSettings): 'en' | null {
  const { message, allowed } = problemTexts(problem, settings);
  return langOf(message) ?? (allowed === null ? null : langOf(allowed));
}

/** As the core says them, in the units of the page; what the message says already is not said again. */
function problemTexts(problem: Problem, settings: UnitSettings): { readonly message: string; readonly allowed: string | null } {
  const allowed = problem.allowed === null || problem.message.includes(problem.allowed) ? null : problem.allowed;
  // The needles' pitch is in millimetres everywhere.
  if (problem.field === 'machine.needlePitchMm') return { message: problem.message, allowed };
  const scale = scaleOf(problem.field, settings), message = scale === null ? problem.message : inScale(problem.message, scale);
  return { message: inUnitsOf(message, settings.lengthUnit), allowed: allowed === null ? null : inUnitsOf(allowed, settings.lengthUnit) };
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
