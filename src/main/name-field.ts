import { formatLength } from '../panel/units.ts';
import type { LengthUnit } from '../panel/units.ts';
import { told } from '../panel/told.ts';
import { ruleAt } from '../plan/sock-schema.ts';
import { pageWords } from '../words/page-words.ts';

/** A field of a sock file as a person reads it: `Foot passes` for `counts.footPasses`; its path where it has no name. */
export function nameField(path: string): string {
  const rule = ruleAt(path), name = rule === null ? path : told(rule.label);
  return name.charAt(0).toUpperCase() + name.slice(1);
}

/** Where the panel has words for the choices of a field. */
function choicesOf(path: string): Readonly<Record<string, string>> | null {
  const { choices } = pageWords().controls;
  const known: Readonly<Record<string, Readonly<Record<string, string>>>> = {
    'foot.arch': choices.arch, 'foot.toes': choices.toes, 'foot.side': choices.side, 'leg.kind': choices.legKind, 'leg.gatherBed': choices.gatherBed,
    'toe.kind': choices.toeKind, 'toe.closing': choices.closing, 'cloth.firmness': choices.firmness,
  };
  return known[path] ?? null;
}

/** What stands in a field, as the panel would say it. */
export function sayValue(path: string, value: unknown, unit: LengthUnit): string {
  const { controls, stand } = pageWords(), rule = ruleAt(path);
  if (value === undefined) return stand.change.absent;
  if (typeof value === 'boolean') return controls.flag[value ? 'on' : 'off'];
  if (typeof value === 'number') return rule?.kind === 'number' && rule.unit === 'mm' && path !== 'machine.needlePitchMm' ? formatLength(value, unit) : told(String(value));
  if (Array.isArray(value)) return stand.change.list(value.length);
  if (typeof value === 'string') return choicesOf(path)?.[value] ?? value;
  return JSON.stringify(value);
}
