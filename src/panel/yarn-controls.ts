import type { PlannedYarn } from '../plan/plan-types.ts';
import { pageWords } from '../words/page-words.ts';
import { namedChoices } from './control-spec.ts';
import type { ControlContext, ControlSpec } from './control-spec.ts';
import { plainScale } from './units.ts';

/** The controls of yarn number `index`, counted from 0. */
export function yarnControls(index: number): readonly ControlSpec[] {
  const at = `yarns.${index}`;
  const yarn = ({ plan }: ControlContext): PlannedYarn | null => plan?.yarns[index] ?? null;
  const words = pageWords().controls, { fields, choices, units } = words;
  return [
    { kind: 'colour', field: `${at}.colour`, label: words.yarnColour(index + 1), planned: (context) => yarn(context)?.colour ?? context.defaults.yarn.colour },
    { kind: 'text', field: `${at}.name`, label: words.yarnName(index + 1), planned: (context) => yarn(context)?.name ?? context.defaults.yarn.name },
    {
      kind: 'number', field: `${at}.metresPer100g`, ...fields.yarnLength, scale: () => plainScale(units.yarnLength, 10), usual: [100, 800],
      planned: (context) => yarn(context)?.metresPer100g ?? context.defaults.yarn.metresPer100g,
    },
    { kind: 'choice', field: `${at}.from`, ...fields.yarnStart, choices: namedChoices(choices.yarnStart), planned: (context) => yarn(context)?.from ?? 'leg' },
    {
      kind: 'number', field: `${at}.stripePasses`, ...fields.stripes, scale: () => plainScale(units.passes, 2), usual: [2, 40],
      planned: (context) => yarn(context)?.stripePasses ?? null, freedom: 'optional', startsAt: () => 6,
    },
  ];
}
