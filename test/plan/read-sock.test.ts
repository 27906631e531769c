import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { checkSock } from '../../src/plan/check-sock.ts';
import { readSock } from '../../src/plan/read-sock.ts';
import { withField } from '../../src/plan/with-field.ts';
import { writeSock } from '../../src/plan/write-sock.ts';
import { randomSockFile } from './random-sock-file.ts';

const GOOD = {
  heelwright: 1,
  name: 'Good',
  gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 },
  foot: { lengthMm: 262, ballGirthMm: 246 },
  heel: { turnDownWidth: 12 },
  yarns: [{ name: 'Grey', metresPer100g: 420, colour: '#888', from: 'leg' }],
} as const;

/** The good file with one place changed; the text is cut in, so that it need not be a JSON value. */
function textWith(path: string, json: string): string {
  const mark = '@@here@@';
  return JSON.stringify(withField(GOOD, path, mark)).replace(`"${mark}"`, () => json);
}

const fieldsOf = (text: string): (string | null)[] => readSock(text).problems.map((problem) => problem.field);

test('a good file is read as it stands', () => {
  expect(readSock(JSON.stringify(GOOD))).toEqual({ file: GOOD, problems: [] });
  expect(readSock(`\ufeff${JSON.stringify(GOOD)}\r\n`).file).toEqual(GOOD);
});

describe('a file that is no sock file', () => {
  test.each([
    ['nothing', ''], ['blanks', ' \n\t '], ['words', 'a sock, please'], ['half a file', '{"gauge": {"stitchesPer10cm": 30'],
    ['NaN, which is not JSON', '{"gauge": {"stitchesPer10cm": NaN, "rowsPer10cm": 42}}'], ['a comma too many', '{"name": "x",}'],
    ['a list', '[]'], ['null', 'null'], ['a number', '30'], ['a text', '"sock"'],
    ['50 MB', `{"name": "${'x'.repeat(50_000_000)}"}`], ['5 MB in bytes, not in letters', `{"name": "${'€'.repeat(1_700_000)}"}`],
    ['deep nesting', '['.repeat(2_000_000)], ['deep and closed', `${'{"a":'.repeat(100_000)}1${'}'.repeat(100_000)}`],
    ['deep within a field', `{"gauge": ${'['.repeat(50_000)}${']'.repeat(50_000)}}`],
    ['zero bytes', '\0\0\0'],
  ])('%s', (_name, text) => {
    const { file, problems } = readSock(text);
    expect(file).toBeNull();
    expect(problems).toHaveLength(1);
    expect(Object.keys(problems[0]).sort()).toEqual(['allowed', 'field', 'message', 'value']);
    expect(problems[0].field).toBeNull();
    expect(problems[0].value!.length).toBeLessThanOrEqual(200);
    expect(problems[0].message).not.toBe('');
  });

  test('brackets in a text are no nesting', () => {
    expect(readSock(textWith('name', JSON.stringify('["\\{'.repeat(1000)))).problems).toEqual([]);
  });

  test('just under 5 MB is read', () => {
    const rest = JSON.stringify({ ...GOOD, name: '' }).length;
    const text = JSON.stringify({ ...GOOD, name: 'x'.repeat(5_000_000 - rest) });
    expect(readSock(text).problems).toEqual([]);
    expect(readSock(`${text} `).problems[0].message).toMatch(/5 MB/);
  });
});

describe('one wrong field is named, and nothing else', () => {
  test.each([
    // Limits as the contract has them; each row is a path and the JSON that stands there.
    ['gauge.stitchesPer10cm', '3'], ['gauge.stitchesPer10cm', '300'], ['gauge.stitchesPer10cm', '-30'], ['gauge.stitchesPer10cm', '0'],
    ['gauge.stitchesPer10cm', '1e999'], ['gauge.stitchesPer10cm', '-1e999'], ['gauge.stitchesPer10cm', '"30"'], ['gauge.stitchesPer10cm', 'null'],
    ['gauge.rowsPer10cm', '7.99'], ['gauge.rowsPer10cm', '200.5'], ['gauge.rowsPer10cm', '[42]'], ['gauge.rowsPer10cm', 'true'],
    ['gauge', '30'], ['gauge', 'null'], ['gauge.ribWidthFactor', '0'],
    ['foot.lengthMm', '5'], ['foot.lengthMm', '5000'], ['foot.lengthMm', '{}'], ['foot.ballGirthMm', '59'], ['foot.ballGirthMm', '451'],
    ['foot.calfGirthMm', '-1'], ['foot.shoeSize', '43'], ['foot.shoeSize', 'null'], ['ease.girthPercent', '-41'], ['ease.lengthPercent', '31'],
    ['leg.lengthMm', '801'], ['leg.lengthMm', '-0.1'], ['leg.kind', '"sock"'], ['leg.kind', '1'], ['leg.gatherBed', '"left"'],
    ['heel.turnDownWidth', '11'], ['heel.turnDownWidth', '0'], ['heel.turnDownWidth', '1'], ['heel.turnDownWidth', '12.5'], ['heel.turnDownWidth', '-2'],
    ['heel.plateauPasses', '3'], ['heel.plateauPasses', '-2'], ['heel.wraps', '"true"'], ['heel.wraps', '1'], ['heel', '[]'],
    ['toe.kind', '"pointed"'], ['toe.passesPerDecrease', '3'], ['toe.passesPerDecrease', '0'], ['toe.tipStitches', '9'], ['toe.closing', 'null'], ['cloth.firmness', '"hard"'], ['cloth.firmness', '1'], ['cloth', '"firm"'], ['cloth.softness', '1'],
    ['counts.stitches', '70'], ['counts.stitches', '72.5'], ['counts.stitches', '0'], ['counts.stitches', '-72'], ['counts.stitches', '4000000'],
    ['counts.legPasses', '1.5'], ['counts.anklePasses', '3'], ['counts.footPasses', '111'], ['counts.footPasses', '0'], ['counts.footPasses', '1e9'],
    ['yarns', '{}'], ['yarns', 'null'], ['yarns.0', '"wool"'], ['yarns.0.metresPer100g', '19'], ['yarns.0.metresPer100g', '2001'],
    ['yarns.0.colour', '"grey"'], ['yarns.0.colour', '"#12345"'], ['yarns.0.colour', '"#12345g"'], ['yarns.0.colour', '"#1234567"'], ['yarns.0.colour', '7'],
    ['yarns.0.from', '"cuff"'], ['yarns.0.name', '5'], ['yarns.0.stripePasses', '3'],
    ['machine.needlesPerBed', '19'], ['machine.needlesPerBed', '401'], ['machine.needlesPerBed', '100.5'], ['machine.needlePitchMm', '0'], ['machine.needlePitchMm', '21'],
    ['heelwright', '2'], ['heelwright', '"1"'], ['heelwright', 'null'], ['name', 'null'], ['name', '5'],
    // Unknown fields.
    ['colour', '"#fff"'], ['foot.length', '262'], ['gauge.stitches', '30'], ['yarns.0.color', '"#fff"'], ['constructor', '{}'], ['prototype', '1'],
    ['gauge.toString', '1'], ['heel.hasOwnProperty', '1'],
  ])('%s: %s', (path, json) => {
    const text = textWith(path, json);
    const { file, problems } = readSock(text);
    expect(file).toBeNull();
    expect(problems.map((problem) => problem.field)).toEqual([path]);
    const [problem] = problems;
    expect(problem.allowed).not.toBeNull();
    expect(problem.message.length).toBeGreaterThan(10);
    expect(problem.value!.length).toBeLessThanOrEqual(200);
  });

  test.each(['__proto__', 'gauge.__proto__', 'yarns.0.__proto__'])('%s is a field like any unknown one, and changes no prototype', (path) => {
    const keys = path.split('.');
    const last = keys.pop()!;
    const parent = keys.join('.');
    const inner = parent === '' ? GOOD : parent === 'gauge' ? GOOD.gauge : GOOD.yarns[0];
    const poisoned = JSON.stringify(inner).replace(/^\{/, `{"${last}": {"lengthMm": 262, "isBad": true}, `);
    const text = parent === '' ? poisoned : textWith(parent, poisoned);
    expect(fieldsOf(text)).toEqual([path]);
    expect(Object.hasOwn(Object.prototype, 'isBad')).toBe(false);
  });

  test('all the limits themselves are allowed', () => {
    for (const [path, low, high] of [
      ['gauge.stitchesPer10cm', 8, 120], ['gauge.rowsPer10cm', 8, 200], ['foot.lengthMm', 60, 400], ['foot.ballGirthMm', 60, 450],
      ['ease.girthPercent', -40, 30], ['ease.lengthPercent', -40, 30], ['leg.lengthMm', 0, 800], ['yarns.0.metresPer100g', 20, 2000],
      ['machine.needlePitchMm', 1, 20], ['machine.needlesPerBed', 20, 400],
    ] as const) {
      for (const value of [low, high]) expect(checkSock(withField(GOOD, path, value)).problems).toEqual([]);
      for (const value of [low - 0.01, high + 0.01, NaN, Infinity]) expect(checkSock(withField(GOOD, path, value)).file).toBeNull();
    }
  });
});

describe('messages help', () => {
  test.each([
    [textWith('foot.lenghtMm', '262'), 'foot.lenghtMm', /Did you mean foot\.lengthMm\?/],
    [textWith('turnDownWidth', '12'), 'turnDownWidth', /Did you mean heel\.turnDownWidth\?/],
    [textWith('gauge.stitchesPer10cm', '"30"'), 'gauge.stitchesPer10cm', /Write 30 without quotation marks/],
    [textWith('gauge.stitchesPer10cm', '3'), 'gauge.stitchesPer10cm', /from 8 to 120 stitches/],
  ])('%s', (text, field, words) => {
    const problem = readSock(text).problems.find((each) => each.field === field);
    expect(problem?.message).toMatch(words);
  });

  test('every problem is told, not only the first', () => {
    const text = JSON.stringify({ gauge: { stitchesPer10cm: 3, rowsPer10cm: null, rows: 1 }, foot: { lengthMm: '262' }, yarns: [{}, { colour: 'red' }], nonsense: 1 });
    expect(fieldsOf(text).sort()).toEqual([
      'foot.ballGirthMm', 'foot.lengthMm', 'gauge.rows', 'gauge.rowsPer10cm', 'gauge.stitchesPer10cm', 'nonsense', 'yarns.1.colour',
    ]);
  });

  test('a hundred thousand unknown fields are counted, not listed', () => {
    const many = Object.fromEntries(Array.from({ length: 100_000 }, (_, i) => [`x${i}`, i]));
    const { problems } = readSock(JSON.stringify({ ...GOOD, ...many }));
    expect(problems.length).toBeLessThan(50);
    expect(problems.at(-1)!.message).toMatch(/99,980 more/);
  });
});

describe('what a sock needs', () => {
  test.each([
    ['no gauge', { foot: GOOD.foot }, ['gauge']],
    ['half a gauge', { gauge: { rowsPer10cm: 42 }, foot: GOOD.foot }, ['gauge.stitchesPer10cm']],
    ['no size', { gauge: GOOD.gauge }, ['foot.ballGirthMm', 'foot.lengthMm']],
    ['no girth', { gauge: GOOD.gauge, foot: { lengthMm: 262 } }, ['foot.ballGirthMm']],
    ['no length', { gauge: GOOD.gauge, foot: { ballGirthMm: 246 } }, ['foot.lengthMm']],
    ['stitches alone', { gauge: GOOD.gauge, counts: { stitches: 72 } }, ['foot.lengthMm']],
    ['counts alone', { gauge: GOOD.gauge, counts: { stitches: 72, footPasses: 110 } }, []],
    ['stitches and a length', { gauge: GOOD.gauge, foot: { lengthMm: 262 }, counts: { stitches: 72 } }, []],
    ['a girth and foot passes', { gauge: GOOD.gauge, foot: { ballGirthMm: 246 }, counts: { footPasses: 110 } }, []],
    ['a shoe size and a girth', { gauge: GOOD.gauge, foot: { ballGirthMm: 246, shoeSize: { system: 'continental', value: 42 } } }, []],
    ['a shoe size without its system', { gauge: GOOD.gauge, foot: { ballGirthMm: 246, shoeSize: { value: 42 } } }, ['foot.shoeSize.system']],
    ['a shoe size of no foot', { gauge: GOOD.gauge, foot: { ballGirthMm: 246, shoeSize: { system: 'us-men', value: 42 } } }, ['foot.shoeSize.value']],
    ['a zero shoe size', { gauge: GOOD.gauge, foot: { ballGirthMm: 246, shoeSize: { system: 'uk', value: 0 } } }, ['foot.shoeSize.value']],
  ])('%s', (_name, value, fields) => {
    expect(checkSock(value).problems.map((problem) => problem.field)).toEqual(fields);
  });
});

describe('writeSock', () => {
  test('hundreds of socks come back as they were, whatever order their fields had', () => {
    const random = createRandom(11);
    const shuffled = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(shuffled);
      if (typeof value !== 'object' || value === null) return value;
      const entries = Object.entries(value).map(([key, inner]) => ({ key, inner: shuffled(inner), place: random() }));
      return Object.fromEntries(entries.sort((a, b) => a.place - b.place).map(({ key, inner }) => [key, inner]));
    };
    for (let i = 0; i < 300; i++) {
      const file = randomSockFile(random);
      const text = writeSock(file);
      expect(readSock(text)).toEqual({ file, problems: [] });
      expect(writeSock(shuffled(file) as typeof file)).toBe(text);
    }
  });

  test('reads as people write it', () => {
    expect(writeSock(GOOD)).toMatchInlineSnapshot(`
      "{
        "heelwright": 1,
        "name": "Good",
        "gauge": {
          "stitchesPer10cm": 30,
          "rowsPer10cm": 42
        },
        "foot": {
          "lengthMm": 262,
          "ballGirthMm": 246
        },
        "heel": {
          "turnDownWidth": 12
        },
        "yarns": [
          {
            "name": "Grey",
            "metresPer100g": 420,
            "colour": "#888",
            "from": "leg"
          }
        ]
      }
      "
    `);
  });

  test('keeps fields that another choice leaves unused', () => {
    const file = { ...GOOD, toe: { kind: 'short-row', passesPerDecrease: 6 }, foot: { ...GOOD.foot, shoeSize: { system: 'uk', value: 8 } } } as const;
    expect(readSock(writeSock(file)).file).toEqual(file);
  });
});

test('checking changes nothing of what it is given', () => {
  const random = createRandom(4);
  for (let i = 0; i < 50; i++) {
    const file = randomSockFile(random);
    const before = structuredClone(file);
    const { file: copy } = checkSock(file);
    expect(file).toEqual(before);
    expect(copy).not.toBe(file);
  }
});
