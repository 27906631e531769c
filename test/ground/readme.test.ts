import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Rule } from '../../src/plan/field-rule.ts';
import { checkSock } from '../../src/plan/check-sock.ts';
import { SOCK_SCHEMA } from '../../src/plan/sock-schema.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { FIGURE_NAMES } from '../../src/sheet/lesson-figures.ts';
import { PART_NAMES } from '../../src/sheet/lesson-places.ts';
import { SCENE_KEYS } from '../../src/sheet/lesson-settings.ts';
import { writePassesJson } from '../../src/sheet/write-passes.ts';

const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');

/** A section of the README, from its heading to the next of its rank. */
const sectionOf = (heading: string): string => readme.split(/^## /m).find((part) => part.startsWith(heading)) ?? '';
/** Rows of the sock file's tables whose first cell is code: the code, then the other cells. */
const rows = new Map([...sectionOf('The sock file').matchAll(/^\| `([^`]+)` \|(.*)\|$/gm)].map(([, name, rest]) => [name, rest.split('|').map((cell) => cell.trim())]));

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
    expect([...rows.keys()]).toEqual(fields.map(([path]) => path));
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

describe('the README on lessons', () => {
  const told = sectionOf('A lesson of your own'), code = (text: string): string[] => [...text.matchAll(/`([^`]+)`/g)].map(([, word]) => word);

  it('names the keys, figures and parts that a lesson may use, and no other', () => {
    const keys = [...told.matchAll(/^\| `([\w-]+)` \|/gm)].map(([, key]) => key);
    expect(keys).toEqual(SCENE_KEYS);
    const figures = code(told).find((words) => words.startsWith('{stitches}')) ?? '';
    expect([...figures.matchAll(/\{([\w-]+)\}/g)].map(([, name]) => name)).toEqual(FIGURE_NAMES);
    expect(code(told.split('Parts: ')[1].split('. ')[0])).toEqual(PART_NAMES);
  });
});

describe('the README on files of passes', () => {
  it('explains every phrase that they use', () => {
    const told = new Set([...sectionOf('The passes as a file').matchAll(/^\| (.*?) \|/gm)].flatMap(([, cell]) => [...cell.matchAll(/`([a-z]+)/g)].map(([, word]) => word)));
    const used = new Set(['graft', 'bind-off'].flatMap((closing) => phrasesIn(closing)));
    expect([...used].sort()).toEqual([...told].sort());
  });
});

/** First words of all phrases in the passes of a small sock with wraps, moves, two yarns and a seam. */
function phrasesIn(closing: string): string[] {
  const { file } = checkSock({
    gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 24, legPasses: 4, footPasses: 20 }, toe: { closing },
    yarns: [{ name: 'A' }, { name: 'B', from: 'heel' }],
  });
  const { sock } = knitSock(file!);
  const stops = (JSON.parse(writePassesJson(sock!)) as { stops: { before: string[]; after: string[] }[] }).stops;
  return stops.flatMap(({ before, after }) => [...before, ...after]).map((phrase) => phrase.split(' ')[0]);
}

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
