import type { PlannedYarn } from '../plan/plan-types.ts';
import type { YarnStart } from '../plan/sock-file.ts';
import type { ControlContext, ControlSpec } from './control-spec.ts';
import { plainScale } from './units.ts';

const STARTS: Readonly<Record<string, YarnStart>> = { 'the leg': 'leg', 'the ankle': 'ankle', 'the heel': 'heel', 'the foot': 'foot', 'the toe': 'toe' };

/** The controls of yarn number `index`, counted from 0. */
export function yarnControls(index: number): readonly ControlSpec[] {
  const at = `yarns.${index}`;
  const yarn = ({ plan }: ControlContext): PlannedYarn | null => plan?.yarns[index] ?? null;
  const spoken = `Yarn ${index + 1}`;
  return [
    { kind: 'colour', field: `${at}.colour`, label: `${spoken} colour`, planned: (context) => yarn(context)?.colour ?? context.defaults.yarn.colour },
    { kind: 'text', field: `${at}.name`, label: `${spoken} name`, planned: (context) => yarn(context)?.name ?? context.defaults.yarn.name },
    {
      kind: 'number', field: `${at}.metresPer100g`, label: 'Length', scale: () => plainScale('m in 100 g', 10), usual: [100, 800],
      planned: (context) => yarn(context)?.metresPer100g ?? context.defaults.yarn.metresPer100g,
    },
    { kind: 'choice', field: `${at}.from`, label: 'Starts with', choices: STARTS, planned: (context) => yarn(context)?.from ?? 'leg' },
    {
      kind: 'number', field: `${at}.stripePasses`, label: 'Stripes of', scale: () => plainScale('passes', 2), usual: [2, 40],
      planned: (context) => yarn(context)?.stripePasses ?? null, freedom: 'optional', startsAt: () => 6,
      hint: 'Yarns that start at the same place take turns, each for so many passes.',
    },
  ];
}
