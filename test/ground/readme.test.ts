import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Rule } from '../../src/plan/field-rule.ts';
import { checkSock } from '../../src/plan/check-sock.ts';
import { SOCK_SCHEMA } from '../../src/plan/sock-schema.ts';

const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');

/** Rows of README tables whose first cell is code: the code, then the other cells. */
const rows = new Map([...readme.matchAll(/^\| `([^`]+)` \|(.*)\|$/gm)].map(([, name, rest]) => [name, rest.split('|').map((cell) => cell.trim())]));

function* leaves(rule: Rule, path: string): Generator<[path: string, rule: Rule]> {
  if (rule.kind === 'group') {
    for (const [name, inner] of Object.entries(rule.fields)) yield* leaves(inner, path === '' ? name : `${path}.${name}`);
  } else if (rule.kind === 'list') {
    yield* leaves(rule.of, `${path}[]`);
  } else {
    yield [path, rule];
  }
}

describe('the README\'s table of the sock file', () => {
  const fields = [...leaves(SOCK_SCHEMA, '')];

  it('has every field, and no other', () => {
    const listed = [...rows.keys()].filter((name) => !/(Mm|Percent)$/.test(name) || name.includes('.')).filter((name) => name !== 'legFootAngleDeg');
    expect(listed).toEqual(fields.map(([path]) => path));
  });

  for (const [path, rule] of fields) {
    if (rule.kind === 'number') {
      it(`${path}: limits`, () => {
        expect(rows.get(path)?.slice(1, 3)).toEqual([String(rule.min), String(rule.max)]);
      });
    }
    if (rule.kind === 'choice') {
      it(`${path}: choices`, () => {
        for (const choice of rule.choices) expect(rows.get(path)?.[0]).toContain(typeof choice === 'number' ? String(choice) : `\`${choice}\``);
      });
    }
  }

  it('shows an example that is a sock file', () => {
    const example = /```json\n([\s\S]*?)```/.exec(readme)?.[1] ?? '';
    expect(checkSock(JSON.parse(example)).problems).toEqual([]);
  });
});

describe('links of the documents', () => {
  for (const name of ['README.md', 'DEVELOPERS.md']) {
    it(`${name} points at files that exist`, () => {
      const home = new URL(`../../${name}`, import.meta.url);
      const targets = [...readFileSync(home, 'utf8').matchAll(/\]\(([^)#]+)[^)]*\)/g)].map(([, target]) => target).filter((target) => !target.startsWith('http'));
      expect(targets.length).toBeGreaterThan(1);
      expect(targets.filter((target) => !existsSync(new URL(target, home)))).toEqual([]);
    });
  }
});
