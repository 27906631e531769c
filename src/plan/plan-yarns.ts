import { DEFAULTS, YARN_COLOURS } from './defaults.ts';
import type { PlannedYarn } from './plan-types.ts';
import type { SockFile } from './sock-file.ts';

/** `#rgb` as `#rrggbb`, in small letters. */
function longColour(colour: string): string {
  const digits = colour.slice(1).toLowerCase();
  return `#${digits.length === 3 ? [...digits].map((digit) => digit + digit).join('') : digits}`;
}

/**
 * The yarns of a file, in its order, everything filled in. Something must knit the leg: when no
 * yarn begins there, the default yarn is added at the end of the list.
 */
export function planYarns(file: SockFile): readonly PlannedYarn[] {
  const given = (file.yarns ?? []).map((yarn, i): PlannedYarn => ({
    name: yarn.name ?? `Yarn ${i + 1}`,
    metresPer100g: yarn.metresPer100g ?? DEFAULTS.yarn.metresPer100g,
    colour: longColour(yarn.colour ?? YARN_COLOURS[i % YARN_COLOURS.length]),
    from: yarn.from ?? DEFAULTS.yarn.from,
    stripePasses: yarn.stripePasses ?? null,
  }));
  const hasLegYarn = given.some((yarn) => yarn.from === 'leg');
  return hasLegYarn ? given : [...given, { ...DEFAULTS.yarn, stripePasses: null }];
}
