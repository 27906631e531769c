import { makeProblem } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import { buildProgram } from '../plan/build-program.ts';
import { mirrorProgram } from '../plan/mirror-program.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { Program } from '../plan/step.ts';
import { withField } from '../plan/with-field.ts';
import type { Words } from '../words/words.ts';
import type { Parting } from './can-go-on.ts';
import { canGoOn } from './can-go-on.ts';
import type { KnitPlace } from './knit-place.ts';

/** A field that two sock files say differently; undefined where a file leaves it out. */
export interface FieldChange { readonly field: string; readonly was: unknown; readonly is: unknown }

/** Lists are one field each: their entries have no names. The version of a file is not knitted. */
export function listChanges(was: unknown, is: unknown, path = ''): FieldChange[] {
  if (JSON.stringify(was) === JSON.stringify(is) || path === 'heelwright') return [];
  const isGroup = (value: unknown): value is Readonly<Record<string, unknown>> => typeof value === 'object' && value !== null && !Array.isArray(value);
  if (!(isGroup(was) || isGroup(is)) || !(isGroup(was) || was === undefined) || !(isGroup(is) || is === undefined)) return [{ field: path, was, is }];
  const names = [...new Set([...Object.keys(was ?? {}), ...Object.keys(is ?? {})])];
  return names.flatMap((name) => listChanges(was?.[name], is?.[name], path === '' ? name : `${path}.${name}`));
}

export type PlannedAnew =
  | { readonly place: KnitPlace; readonly changes: readonly FieldChange[]; readonly problems: readonly [] }
  /** The old plan is kept: the new one cannot be knitted at all, or not from here. */
  | { readonly place: null; readonly changes: readonly FieldChange[]; readonly problems: readonly Problem[] };

function programOf(file: SockFile, isMirrored: boolean): Program | null {
  const { plan } = planSock(file);
  if (plan === null) return null;
  const program = buildProgram(plan);
  return isMirrored ? mirrorProgram(program) : program;
}

/** The fields that by themselves contradict what is knitted; all that were changed where none does so alone. */
function findCulprits(from: SockFile, changes: readonly FieldChange[], parting: (file: SockFile) => Parting | null): readonly FieldChange[] {
  const alone = changes.filter(({ field, is }) => parting(withField(from, field, is)) !== null);
  return alone.length > 0 ? alone : changes;
}

/** What is knitted stays, the rest follows the changed file; or, field by field, why it cannot. */
export function planAnew(place: KnitPlace, changed: SockFile, words: Words): PlannedAnew {
  const { file: from, stop, sock, second } = place, changes = listChanges(from, changed), isMirrored = sock === 2 && second === 'mirrored';
  const before = programOf(from, isMirrored), { problems } = planSock(changed), after = programOf(changed, isMirrored);
  if (before === null || after === null) return { place: null, changes, problems };
  const partingOf = (file: SockFile): Parting | null => {
    const program = programOf(file, isMirrored);
    return program === null ? null : canGoOn(before, program, stop);
  };
  const parting = canGoOn(before, after, stop), told = words.stand.anew;
  if (parting === null) return { place: { ...place, file: changed }, changes, problems: [] };
  return {
    place: null, changes,
    problems: findCulprits(from, changes, partingOf).map(({ field, was, is }) =>
      makeProblem(field, is, told.asKnitted(was), (parting.stop ?? 0) === 0 ? told.partsAtCastOn(field) : told.parts(field, (partingOf(withField(from, field, is)) ?? parting).stop ?? 0, stop - 1))),
  };
}
