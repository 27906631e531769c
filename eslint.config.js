import { defineConfig } from 'eslint/config';
import tseslint from 'typescript-eslint';

/** From what is planned to what is advised: rooms that run in Node, in a worker and in the page alike. */
const CORE = ['base', 'solve', 'words', 'foot', 'plan', 'machine', 'fabric', 'yarn', 'shape', 'measure', 'sheet', 'pipeline', 'choose'];

/** Rooms of which view and panel may have the types only. */
const OTHERS = CORE.filter((room) => room !== 'base' && room !== 'words' && room !== 'yarn');

/**
 * What each room may import from the others, values or types only. The arrows are drawn in
 * DEVELOPERS.md. `src/machine/codes.ts` is a table of numbers and counts as a type.
 */
const ROOMS = {
  base: { values: [], types: [] },
  solve: { values: ['base'], types: [] },
  words: { values: ['base'], types: ['foot', 'plan', 'machine', 'measure', 'choose'] },
  foot: { values: ['base'], types: [] },
  plan: { values: ['base', 'foot'], types: [] },
  machine: { values: ['base'], types: ['plan'] },
  fabric: { values: ['base'], types: ['machine'] },
  yarn: { values: ['base'], types: ['machine', 'fabric'] },
  shape: { values: ['base', 'solve', 'fabric', 'foot'], types: ['machine'] },
  measure: { values: ['base', 'foot', 'fabric', 'yarn'], types: ['plan', 'machine', 'shape'] },
  sheet: { values: CORE.slice(0, CORE.indexOf('sheet')), types: [] },
  pipeline: { values: CORE.slice(0, CORE.indexOf('pipeline')), types: [] },
  choose: { values: CORE.slice(0, CORE.indexOf('choose')), types: [] },
  worker: { values: CORE, types: [] },
  view: { values: ['base', 'words', 'yarn'], types: [...OTHERS, 'worker', 'panel'] },
  panel: { values: ['base', 'words'], types: [...OTHERS, 'yarn', 'worker', 'view'] },
};

const NO_RANDOM = { object: 'Math', property: 'random', message: 'Pass a seeded source in: the same sock gives the same shape.' };
/** Rooms on whose bytes a shape hangs, and functions that engines may round as they like. */
const TO_THE_BIT = ['base', 'solve', 'foot', 'machine', 'fabric', 'yarn', 'shape'];
const ENGINES_OWN = ['sin', 'cos', 'tan', 'asin', 'acos', 'atan', 'atan2', 'exp', 'log', 'log2', 'log10', 'pow', 'cbrt', 'hypot', 'sinh', 'cosh', 'tanh'];

/** Imports from outside the rooms, as regular expressions of the whole specifier. */
const OUTSIDE = {
  view: ['three', 'three/.+', String.raw`\./[\w-]+\.css`, String.raw`\.\./\.\./shaders/[\w.-]+\.glsl\?raw`],
  panel: ['lil-gui', String.raw`\./[\w-]+\.css`],
};

/** Rooms have no rooms inside, so a specifier alone tells where it leads. */
function restrictedImports(room) {
  const { values, types } = ROOMS[room];
  const allowed = [
    String.raw`\./[\w.-]+\.ts`,
    ...[...values, ...types].map((name) => String.raw`\.\./${name}/[\w.-]+\.ts`),
    ...(OUTSIDE[room] ?? []),
  ];
  const patterns = [{
    regex: `^(?!(?:${allowed.join('|')})$)`,
    message: `src/${room} may not import this: see the room map in DEVELOPERS.md.`,
  }];
  if (types.length > 0) {
    patterns.push({
      regex: String.raw`^\.\./(?:${types.join('|')})/(?!codes\.ts$)`,
      allowTypeImports: true,
      message: `src/${room} may import types only from there: see the room map in DEVELOPERS.md.`,
    });
  }
  return ['error', { patterns }];
}

const SYNTAX = [
  { selector: 'ExportDefaultDeclaration', message: 'No default exports: a thing has one name everywhere.' },
  { selector: 'ExportSpecifier[exported.name="default"]', message: 'No default exports: a thing has one name everywhere.' },
  { selector: 'TSEnumDeclaration', message: 'No enum: string unions, or `as const` codes in grids.' },
];

const CORE_SYNTAX = [
  ...SYNTAX,
  { selector: 'ImportExpression', message: 'Core rooms load nothing at run time.' },
  { selector: 'MetaProperty', message: 'Core rooms do not ask where they run.' },
];

const CORE_GLOBALS = [
  'document', 'window', 'self', 'globalThis', 'navigator', 'location', 'localStorage', 'fetch', 'crypto',
  'Date', 'performance', 'setTimeout', 'setInterval', 'setImmediate', 'requestAnimationFrame', 'queueMicrotask',
  'process', 'Buffer', 'console',
].map((name) => ({ name, message: 'Core rooms know no page, clock or machine: pass in what is needed.' }));

const GLSL_ELSEWHERE = { regex: String.raw`\.glsl|\?raw$`, message: 'Shaders are imported in src/view only: Node cannot read `?raw`.' };

/** A rule may be switched off only where the reason stands beside it. */
const reasonedDisable = {
  meta: { type: 'suggestion', schema: [], messages: { bare: 'Say why: `eslint-disable-... rule -- reason`.' } },
  create: (context) => ({
    Program() {
      for (const comment of context.sourceCode.getAllComments()) {
        if (/^\s*eslint-disable/.test(comment.value) && !/ -- \S/.test(comment.value)) {
          context.report({ loc: comment.loc, messageId: 'bare' });
        }
      }
    },
  }),
};

export default defineConfig(
  { ignores: ['dist/', 'node_modules/', 'coverage/'] },
  {
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    plugins: { house: { rules: { 'reasoned-disable': reasonedDisable } } },
    rules: { 'house/reasoned-disable': 'error' },
  },
  {
    files: ['**/*.ts'],
    extends: [tseslint.configs.strict, tseslint.configs.stylistic],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      eqeqeq: ['error', 'always', { null: 'ignore' }],
      'max-lines': ['error', 400],
      'max-depth': ['error', 3],
      'max-lines-per-function': ['error', { max: 60, skipComments: true, skipBlankLines: true }],
      complexity: ['error', { max: 20, variant: 'modified' }],
      'no-restricted-syntax': ['error', ...SYNTAX],
      'no-restricted-imports': ['error', { patterns: [GLSL_ELSEWHERE] }],
      '@typescript-eslint/consistent-indexed-object-style': 'off',
      // Over flat arrays an index is what a kernel means, and quicker.
      '@typescript-eslint/prefer-for-of': 'off',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      '@typescript-eslint/no-unnecessary-type-assertion': 'error',
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
      '@typescript-eslint/await-thenable': 'error',
      '@typescript-eslint/no-unsafe-assignment': 'error',
      '@typescript-eslint/no-unsafe-call': 'error',
      '@typescript-eslint/no-unsafe-member-access': 'error',
      '@typescript-eslint/no-unsafe-return': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
    },
  },
  ...Object.keys(ROOMS).map((room) => ({
    files: [`src/${room}/**/*.ts`],
    rules: { 'no-restricted-imports': restrictedImports(room) },
  })),
  {
    files: CORE.map((room) => `src/${room}/**/*.ts`),
    rules: {
      'no-restricted-globals': ['error', ...CORE_GLOBALS],
      'no-restricted-properties': ['error', NO_RANDOM],
      'no-restricted-syntax': ['error', ...CORE_SYNTAX],
    },
  },
  {
    files: TO_THE_BIT.map((room) => `src/${room}/**/*.ts`),
    rules: {
      'no-restricted-properties': ['error', NO_RANDOM, ...ENGINES_OWN.map((property) => (
        { object: 'Math', property, message: 'Engines round it as they like, and a shape must have the same bytes in all: see src/base/portable-math.ts.' }
      ))],
    },
  },
  {
    files: ['src/report.ts'],
    rules: {
      'no-restricted-imports': ['error', { patterns: [{
        regex: String.raw`^(?!node:|\./(?:${CORE.join('|')})/[\w.-]+\.ts$)`,
        message: 'The command line runs in Node: rooms base to choose only.',
      }] }],
    },
  },
  {
    // A table of checks is one long function; a missing element fails the test that wants it.
    files: ['test/**/*.ts'],
    rules: { 'max-lines-per-function': 'off', '@typescript-eslint/no-non-null-assertion': 'off' },
  },
  { files: ['*.config.ts'], rules: { 'no-restricted-syntax': 'off' } },
);
