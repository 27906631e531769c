import { ESLint } from 'eslint';
import { describe, expect, it } from 'vitest';
import tseslint from 'typescript-eslint';

/** Snippets are files that do not exist, so rules that need types are left out. */
const eslint = new ESLint({ overrideConfig: [tseslint.configs.disableTypeChecked] });

async function rulesBrokenBy(filePath: string, code: string): Promise<string[]> {
  const [result] = await eslint.lintText(code, { filePath });
  return result.messages.map((message) => message.ruleId ?? message.message);
}

const use = (specifier: string) => `import { thing } from '${specifier}';\nexport const used = thing;\n`;
const useType = (specifier: string) => `import type { Thing } from '${specifier}';\nexport type Used = Thing;\n`;
const useInlineType = (specifier: string) => `import { type Thing } from '${specifier}';\nexport type Used = Thing;\n`;

/** The room map of DEVELOPERS.md once more, as examples: room, then specifiers. */
const IMPORTS: readonly (readonly [room: string, allowed: readonly string[], refused: readonly string[]])[] = [
  ['base', ['./units.ts'], ['../solve/x.ts', '../plan/x.ts', 'three', 'node:fs', 'fs']],
  ['solve', ['../base/x.ts'], ['../foot/x.ts', '../fabric/x.ts', '../shape/x.ts', '../machine/codes.ts', 'three/src/math/Vector3.js']],
  ['words', ['../base/x.ts', '../machine/codes.ts'], ['../plan/x.ts', '../panel/x.ts', 'three']],
  ['foot', ['../base/x.ts'], ['../solve/x.ts', '../plan/x.ts', 'lil-gui']],
  ['plan', ['../base/x.ts', '../foot/x.ts'], ['../machine/x.ts', '../machine/codes.ts', '../sheet/x.ts', 'node:path']],
  ['machine', ['../base/x.ts'], ['../plan/x.ts', '../fabric/x.ts', '../solve/x.ts']],
  ['fabric', ['../base/x.ts', '../machine/codes.ts'], ['../machine/x.ts', '../plan/x.ts', '../shape/x.ts', '../solve/x.ts']],
  ['yarn', ['../base/x.ts', '../machine/codes.ts'], ['../fabric/x.ts', '../machine/x.ts', '../shape/x.ts', 'three']],
  ['shape', ['../base/x.ts', '../solve/x.ts', '../fabric/x.ts', '../foot/x.ts', '../machine/codes.ts'], ['../machine/x.ts', '../plan/x.ts', '../measure/x.ts', 'three']],
  ['measure', ['../foot/x.ts', '../fabric/x.ts', '../yarn/x.ts', '../machine/codes.ts'], ['../plan/x.ts', '../shape/x.ts', '../solve/x.ts', '../sheet/x.ts']],
  ['sheet', ['../plan/x.ts', '../machine/x.ts', '../measure/x.ts'], ['../pipeline/x.ts', '../choose/x.ts', 'node:fs', '../panel/x.ts']],
  ['pipeline', ['../plan/x.ts', '../sheet/x.ts'], ['../choose/x.ts', '../worker/x.ts', 'three']],
  ['choose', ['../pipeline/x.ts', '../base/x.ts'], ['../worker/x.ts', '../view/x.ts', '../main.ts']],
  ['worker', ['../pipeline/x.ts', '../choose/x.ts', './x.ts'], ['../view/x.ts', '../panel/x.ts', 'three', 'lil-gui', 'node:fs']],
  ['view', ['../base/x.ts', '../yarn/x.ts', '../machine/codes.ts', 'three', 'three/addons/x.js', '../../shaders/a.vert.glsl?raw', './x.css'], ['../machine/x.ts', '../plan/x.ts', '../pipeline/x.ts', '../panel/x.ts', 'lil-gui', '../main.ts']],
  ['panel', ['../base/x.ts', '../words/x.ts', '../machine/codes.ts', 'lil-gui', './panel.css'], ['../view/x.ts', '../plan/x.ts', 'three', '../../shaders/a.vert.glsl?raw', '../main.ts']],
];

/** Rooms whose types alone may be used, and rooms that may not be named at all. */
const TYPES: readonly (readonly [room: string, allowed: readonly string[], refused: readonly string[]])[] = [
  ['plan', [], ['../machine/x.ts', '../fabric/x.ts']],
  ['machine', ['../plan/x.ts'], ['../fabric/x.ts', '../shape/x.ts']],
  ['fabric', ['../machine/x.ts'], ['../plan/x.ts', '../shape/x.ts']],
  ['yarn', ['../machine/x.ts', '../fabric/x.ts'], ['../plan/x.ts', '../shape/x.ts']],
  ['shape', ['../machine/x.ts'], ['../plan/x.ts', '../measure/x.ts']],
  ['measure', ['../plan/x.ts', '../machine/x.ts', '../shape/x.ts'], ['../solve/x.ts', '../pipeline/x.ts']],
  ['base', [], ['../plan/x.ts', 'three']],
  ['words', ['../plan/x.ts', '../machine/x.ts'], ['../sheet/x.ts', '../panel/x.ts']],
  ['view', ['../plan/x.ts', '../pipeline/x.ts', '../worker/x.ts'], ['lil-gui']],
  ['panel', ['../pipeline/x.ts', '../view/x.ts'], ['three']],
];

describe('rooms', () => {
  for (const [room, allowed, refused] of IMPORTS) {
    it(`src/${room} imports what the map allows and nothing else`, async () => {
      const file = `src/${room}/snippet.ts`;
      for (const specifier of allowed) expect(await rulesBrokenBy(file, use(specifier)), specifier).toEqual([]);
      for (const specifier of refused) expect(await rulesBrokenBy(file, use(specifier)), specifier).toContain('no-restricted-imports');
    });
  }

  for (const [room, allowed, refused] of TYPES) {
    it(`src/${room} takes types from where the map allows`, async () => {
      const file = `src/${room}/snippet.ts`;
      for (const specifier of allowed) {
        expect(await rulesBrokenBy(file, useType(specifier)), specifier).toEqual([]);
        expect(await rulesBrokenBy(file, useInlineType(specifier)), specifier).toEqual([]);
        expect(await rulesBrokenBy(file, `export type { Thing } from '${specifier}';\n`), specifier).toEqual([]);
        expect(await rulesBrokenBy(file, `export { thing } from '${specifier}';\n`), specifier).toEqual(['no-restricted-imports']);
      }
      for (const specifier of refused) expect(await rulesBrokenBy(file, useType(specifier)), specifier).toContain('no-restricted-imports');
    });
  }

  it('the command line reads core rooms and Node, never the page', async () => {
    for (const specifier of ['node:fs', './pipeline/x.ts', './choose/x.ts']) expect(await rulesBrokenBy('src/report.ts', use(specifier)), specifier).toEqual([]);
    for (const specifier of ['./worker/x.ts', './view/x.ts', './panel/x.ts', './main.ts', 'three', '../shaders/a.frag.glsl?raw']) {
      expect(await rulesBrokenBy('src/report.ts', use(specifier)), specifier).toEqual(['no-restricted-imports']);
    }
  });

  it('shaders enter through the view only', async () => {
    for (const file of ['src/main.ts', 'test/plan/snippet.ts']) {
      expect(await rulesBrokenBy(file, "import yarn from '../shaders/yarn.vert.glsl?raw';\nexport const used = yarn;\n"), file).toEqual(['no-restricted-imports']);
    }
  });
});

it('rooms on which a shape hangs use no function that engines round as they like', async () => {
  for (const room of ['base', 'solve', 'foot', 'machine', 'fabric', 'yarn', 'shape']) {
    expect(await rulesBrokenBy(`src/${room}/snippet.ts`, 'export const x = Math.sin(1);\n'), room).toEqual(['no-restricted-properties']);
    expect(await rulesBrokenBy(`src/${room}/snippet.ts`, 'export const x = Math.sqrt(2);\n'), room).toEqual([]);
  }
});

describe('core rooms know no page, clock, chance or late loading', () => {
  const FORBIDDEN: readonly (readonly [code: string, rule: string])[] = [
    ['export const x = Math.random();', 'no-restricted-properties'],
    ['const { random } = Math;\nexport const x = random();', 'no-restricted-properties'],
    ['export const x = Date.now();', 'no-restricted-globals'],
    ['export const x = new Date();', 'no-restricted-globals'],
    ['export const x = performance.now();', 'no-restricted-globals'],
    ['setTimeout(() => undefined, 1);', 'no-restricted-globals'],
    ['export const x = document.title;', 'no-restricted-globals'],
    ['export const x = window.innerWidth;', 'no-restricted-globals'],
    ['export const x = globalThis;', 'no-restricted-globals'],
    ["export const x = import('./y.ts');", 'no-restricted-syntax'],
    ['export const x = import.meta.url;', 'no-restricted-syntax'],
  ];

  for (const room of ['base', 'solve', 'foot', 'plan', 'machine', 'fabric', 'yarn', 'shape', 'measure', 'sheet', 'pipeline', 'choose']) {
    it(`src/${room}`, async () => {
      for (const [code, rule] of FORBIDDEN) expect(await rulesBrokenBy(`src/${room}/snippet.ts`, `${code}\n`), code).toContain(rule);
    });
  }

  it('the page may ask for all of these', async () => {
    for (const [code] of FORBIDDEN) expect(await rulesBrokenBy('src/view/snippet.ts', `${code}\n`), code).toEqual([]);
  });
});

describe('how code reads', () => {
  const nested = (depth: number) => `export function f(a: boolean): number {\n${'if (a) {\n'.repeat(depth)}return 1;\n${'}\n'.repeat(depth)}return 2;\n}\n`;

  const REFUSED: readonly (readonly [what: string, code: string, rule: string])[] = [
    ['default export', 'export default 1;\n', 'no-restricted-syntax'],
    ['default export by name', 'const x = 1;\nexport { x as default };\n', 'no-restricted-syntax'],
    ['enum', 'export enum Bed { Front }\n', 'no-restricted-syntax'],
    ['any', 'export const x = (y: any): unknown => y;\n', '@typescript-eslint/no-explicit-any'],
    ['a file of 401 lines', `export const x = [\n${'  1,\n'.repeat(399)}];\n`, 'max-lines'],
    ['four levels of nesting', nested(4), 'max-depth'],
    ['a rule switched off without a reason', '// eslint-disable-next-line eqeqeq\nexport const f = (a: unknown): boolean => a == 1;\n', 'house/reasoned-disable'],
    ['a type imported as a value', "import { Bed } from '../base/x.ts';\nexport const bed: Bed[] = [];\n", '@typescript-eslint/consistent-type-imports'],
  ];
  for (const [what, code, rule] of REFUSED) {
    it(`refuses ${what}`, async () => {
      for (const file of ['src/plan/snippet.ts', 'src/view/snippet.ts']) expect(await rulesBrokenBy(file, code), file).toContain(rule);
    });
  }

  const ALLOWED: readonly (readonly [what: string, code: string])[] = [
    ['codes', 'export const BED = { front: 0, back: 1 } as const;\n'],
    ['a file of 400 lines', `export const x = [\n${'  1,\n'.repeat(398)}];\n`],
    ['three levels of nesting', nested(3)],
    ['a rule switched off with a reason', '// eslint-disable-next-line eqeqeq -- a text of digits counts too\nexport const f = (a: unknown): boolean => a == 1;\n'],
  ];
  for (const [what, code] of ALLOWED) {
    it(`allows ${what}`, async () => {
      for (const file of ['src/plan/snippet.ts', 'src/view/snippet.ts']) expect(await rulesBrokenBy(file, code), file).toEqual([]);
    });
  }
});
