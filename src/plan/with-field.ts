import type { SockFile } from './sock-file.ts';

type Fields = Readonly<Record<string, unknown>>;

function withKey(held: unknown, keys: readonly string[], value: unknown): unknown {
  const [key, ...rest] = keys;
  if (Array.isArray(held)) {
    const place = Number(key);
    return held.map((entry: unknown, i) => (i !== place ? entry : rest.length === 0 ? value : withKey(entry, rest, value)));
  }
  const fields = (held ?? {}) as Fields;
  const others = Object.fromEntries(Object.entries(fields).filter(([name]) => name !== key));
  const inner = Object.hasOwn(fields, key) ? fields[key] : undefined;
  if (rest.length > 0) return { ...others, [key]: withKey(inner, rest, value) };
  return value === undefined ? others : { ...others, [key]: value };
}

/**
 * A copy of a sock file with one field set, by its dotted path (`yarns.0.colour`); `undefined`
 * takes the field out. Everything else is kept; a list grows no new places. The value is not
 * checked: `checkSock` does that.
 */
export function withField(file: Readonly<SockFile>, path: string, value: unknown): SockFile {
  return withKey(file, path.split('.'), value) as SockFile;
}
