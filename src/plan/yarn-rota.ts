import type { PlannedYarn } from './plan-types.ts';
import type { YarnStart } from './sock-file.ts';
import type { SectionName } from './step.ts';

/** Which yarn knits next. */
export interface YarnRota {
  /** The yarn in the carriage now. */
  current(): number;
  /** Counts one pass of a section; the yarn to change to before it, or null to knit on. */
  nextPass(section: SectionName): number | null;
}

/** The place in a sock at which a section's yarn choice is looked up. */
function startOf(section: SectionName): YarnStart {
  switch (section) {
    case 'cast-on': case 'leg': case 'plain': return 'leg';
    case 'ankle': return 'ankle';
    case 'heel-in': case 'heel-level': case 'heel-out': return 'heel';
    case 'foot': return 'foot';
    case 'toe': case 'toe-in': case 'toe-out': case 'closing': return 'toe';
  }
}

/**
 * Yarns that start at the same place take turns, each for its `stripePasses`; a place with no yarn
 * of its own is knitted on with those before it, stripes going on unbroken.
 */
export function createYarnRota(yarns: readonly PlannedYarn[]): YarnRota {
  const startingAt = (place: YarnStart): number[] => yarns.flatMap((y, i) => (y.from === place ? [i] : []));
  let place: YarnStart = 'leg';
  let group = startingAt('leg');
  // A sock whose first yarn starts later than the leg is knitted with it from the cast-on.
  if (group.length === 0) group = yarns.length > 0 ? [0] : [];
  let turn = 0;
  let passesLeft = passesOf(group[0]);

  function passesOf(yarn: number | undefined): number {
    const chosen = yarn === undefined ? undefined : yarns[yarn];
    return group.length > 1 && chosen?.stripePasses ? chosen.stripePasses : Infinity;
  }

  return {
    current: () => group[turn] ?? 0,
    nextPass(section) {
      const before = group[turn] ?? 0;
      const here = startOf(section);
      const fresh = here === place ? [] : startingAt(here);
      place = here;
      if (fresh.length > 0) {
        group = fresh;
        turn = 0;
        passesLeft = passesOf(group[0]);
      } else if (passesLeft === 0) {
        turn = (turn + 1) % group.length;
        passesLeft = passesOf(group[turn]);
      }
      passesLeft--;
      const now = group[turn] ?? 0;
      return now === before ? null : now;
    },
  };
}
