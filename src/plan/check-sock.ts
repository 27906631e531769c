import { makeProblem, shorten } from '../base/make-problem.ts';
import { nearestName } from '../base/nearest-name.ts';
import type { Problem } from '../base/problem.ts';
import { formatCount } from '../base/unit.ts';
import { checkSizing } from './check-sizing.ts';
import type { GroupRule, ListRule, NumberRule, Rule } from './field-rule.ts';
import { describeAllowed } from './field-rule.ts';
import type { SockFile } from './sock-file.ts';
import { SOCK_FILE_VERSION, SOCK_SCHEMA } from './sock-schema.ts';

export interface CheckedSock {
  /** A clean copy in the file's own order; null when there is any problem. */
  readonly file: SockFile | null;
  readonly problems: readonly Problem[];
}

/** Unknown fields of one object that are named one by one before the rest is counted. */
const NAMED_UNKNOWN = 20;

type Fields = Readonly<Record<string, unknown>>;

/** Every field's last name and full path, for suggestions. */
const KNOWN_FIELDS = listFields(SOCK_SCHEMA, '');

function listFields(group: GroupRule, prefix: string): { name: string; path: string }[] {
  return Object.entries(group.fields).flatMap(([name, rule]) => {
    const path = prefix + name;
    const inner = rule.kind === 'group' ? listFields(rule, `${path}.`)
      : rule.kind === 'list' ? listFields(rule.of, `${path}.0.`)
      : [];
    return [{ name, path }, ...inner];
  });
}

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function nameKind(value: unknown): string {
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  switch (typeof value) {
    case 'string': return 'a text';
    case 'number': return 'a number';
    case 'boolean': return 'true or false';
    case 'object': return 'an object';
    default: return typeof value;
  }
}

function wrongType(rule: Rule, path: string, value: unknown): Problem {
  const allowed = describeAllowed(rule);
  const isQuoted = rule.kind === 'number' && typeof value === 'string' && value.trim() !== '' && Number.isFinite(Number(value));
  const hint = isQuoted ? ` Write ${Number(value)} without quotation marks.` : '';
  return makeProblem(path, value, allowed, `${capital(rule.label)}: ${nameKind(value)} was given, but it must be ${allowed}.${hint}`);
}

function checkNumber(rule: NumberRule, path: string, value: unknown): Problem | null {
  if (typeof value !== 'number') return wrongType(rule, path, value);
  const allowed = describeAllowed(rule);
  const isAllowed = value >= rule.min && value <= rule.max
    && (rule.multipleOf === 0 || value % rule.multipleOf === 0);
  if (isAllowed) return null;
  const given = Number.isFinite(value) ? `${value}` : 'not a finite number';
  return makeProblem(path, value, allowed, `${capital(rule.label)}: ${given}, but it must be ${allowed}.`);
}

function refuse(rule: Rule, path: string, value: unknown): Problem {
  const allowed = describeAllowed(rule);
  return makeProblem(path, value, allowed, `${capital(rule.label)}: ${shorten(String(value), 40)} was given, but it must be ${allowed}.`);
}

function nameUnknown(group: GroupRule, prefix: string, key: string, value: unknown): Problem {
  const path = prefix + key;
  const here = Object.keys(group.fields).map((name) => ({ name, path: prefix + name }));
  const meant = nearestName(key, here) ?? nearestName(key, KNOWN_FIELDS);
  const hint = meant === null ? '' : ` Did you mean ${meant.path}?`;
  const known = Object.keys(group.fields).join(', ');
  return makeProblem(path, value, meant === null ? `one of ${known}` : meant.path,
    `A sock file has no field ${shorten(path, 80)}.${hint}`);
}

/** Names the unknown fields of an object, the first ones in full. */
function checkUnknown(group: GroupRule, prefix: string, value: Fields, problems: Problem[]): void {
  const unknown = Object.keys(value).filter((key) => !Object.hasOwn(group.fields, key));
  for (const key of unknown.slice(0, NAMED_UNKNOWN)) problems.push(nameUnknown(group, prefix, key, value[key]));
  const more = unknown.length - NAMED_UNKNOWN;
  if (more > 0) {
    problems.push(makeProblem(prefix === '' ? null : prefix.slice(0, -1), undefined, `only ${Object.keys(group.fields).join(', ')}`,
      `${formatCount(more)} more unknown fields stand here.`));
  }
}

function checkGroup(group: GroupRule, path: string, value: unknown, problems: Problem[]): unknown {
  if (!isFields(value)) {
    problems.push(wrongType(group, path, value));
    return undefined;
  }
  const prefix = path === '' ? '' : `${path}.`;
  checkUnknown(group, prefix, value, problems);
  const copy: Record<string, unknown> = {};
  for (const [name, rule] of Object.entries(group.fields)) {
    const given = Object.hasOwn(value, name) ? value[name] : undefined;
    if (given !== undefined) {
      copy[name] = checkField(rule, prefix + name, given, problems);
    } else if (group.needs.includes(name)) {
      problems.push(makeProblem(prefix + name, undefined, describeAllowed(rule),
        `${capital(rule.label)}: missing, and a sock cannot be planned without it.`));
    }
  }
  return copy;
}

function checkList(rule: ListRule, path: string, value: unknown, problems: Problem[]): unknown {
  if (!Array.isArray(value)) {
    problems.push(wrongType(rule, path, value));
    return undefined;
  }
  if (value.length > rule.longest) {
    problems.push(makeProblem(path, `${value.length} entries`, describeAllowed(rule), `${capital(rule.label)}: ${formatCount(value.length)} were given, but it must be ${describeAllowed(rule)}.`));
  }
  return value.slice(0, rule.longest).map((entry: unknown, i) => checkGroup(rule.of, `${path}.${i}`, entry, problems));
}

/** The field's value (containers copied), every problem in it pushed. */
function checkField(rule: Rule, path: string, value: unknown, problems: Problem[]): unknown {
  let problem: Problem | null = null;
  switch (rule.kind) {
    case 'group': return checkGroup(rule, path, value, problems);
    case 'list': return checkList(rule, path, value, problems);
    case 'number': problem = checkNumber(rule, path, value); break;
    case 'text': problem = typeof value === 'string' ? null : wrongType(rule, path, value); break;
    case 'flag': problem = typeof value === 'boolean' ? null : wrongType(rule, path, value); break;
    case 'colour':
      if (typeof value !== 'string') problem = wrongType(rule, path, value);
      else if (!/^#(?:[0-9a-f]{3}|[0-9a-f]{6})$/i.test(value)) problem = refuse(rule, path, value);
      break;
    case 'choice':
      if (typeof value !== typeof rule.choices[0]) problem = wrongType(rule, path, value);
      else if (!rule.choices.includes(value as string | number)) problem = refuse(rule, path, value);
      break;
    default: return rule satisfies never;
  }
  if (problem !== null) problems.push(problem);
  return value;
}

/** A file of a version to come may say anything else in words that are not known yet: this alone is told of it. */
function checkVersion(version: unknown): Problem | null {
  if (typeof version !== 'number' || !Number.isInteger(version) || version <= SOCK_FILE_VERSION) return null;
  return makeProblem('heelwright', version, `${SOCK_FILE_VERSION}`,
    `This sock was saved by a newer Heelwright: its file has version ${version}, and this one reads version ${SOCK_FILE_VERSION}. Open it with the newest Heelwright.`);
}

/**
 * Checks a value against the sock file's form: names, types, limits, even numbers, and whether it
 * says how large the sock is. Collects every problem; never throws, never changes what it is given.
 */
export function checkSock(value: unknown): CheckedSock {
  const problems: Problem[] = [];
  if (!isFields(value)) {
    return { file: null, problems: [makeProblem(null, value, 'a JSON object', `A sock file is a JSON object; this is ${nameKind(value)}.`)] };
  }
  const newer = checkVersion(value['heelwright']);
  if (newer !== null) return { file: null, problems: [newer] };
  const copy = checkGroup(SOCK_SCHEMA, '', value, problems);
  checkSizing(value, problems);
  // The schema has been walked: every field that is left has its name and type.
  return problems.length > 0 ? { file: null, problems } : { file: copy as SockFile, problems };
}
