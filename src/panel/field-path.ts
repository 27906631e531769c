import type { SockFile } from '../plan/sock-file.ts';

/** What stands at a dotted path such as `heel.turnDownWidth` or `yarns.0.colour`; undefined if nothing does. */
export function readField(file: SockFile, path: string): unknown {
  let here: unknown = file;
  for (const key of path.split('.')) {
    if (typeof here !== 'object' || here === null) return undefined;
    here = (here as Readonly<Record<string, unknown>>)[key];
  }
  return here;
}

/**
 * A copy of the file with another value at the path, made with the groups it needs; undefined
 * takes the field out, and a group that is left empty with it. Only the changed branch is copied.
 */
export function writeField(file: SockFile, path: string, value: unknown): SockFile {
  return writeKeys(file, path.split('.'), value) as SockFile;
}

function writeKeys(here: unknown, keys: readonly string[], value: unknown): unknown {
  const [key, ...rest] = keys;
  if (key === undefined) return value;
  if (Array.isArray(here)) {
    return here.map((item: unknown, index) => (String(index) === key ? writeKeys(item, rest, value) : item));
  }
  const { [key]: old, ...others } = (here ?? {}) as Readonly<Record<string, unknown>>;
  const next = writeKeys(old, rest, value);
  const isEmptyGroup = rest.length > 0 && typeof next === 'object' && next !== null && Object.keys(next).length === 0;
  if (next === undefined || isEmptyGroup) return others;
  // An existing key keeps its place, so that a saved file stays in the order its owner gave it.
  return old === undefined ? { ...others, [key]: next } : { ...(here as object), [key]: next };
}
