import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { Plan } from '../../src/plan/plan-types.ts';
import { findPass, listSections } from '../../src/sheet/lesson-places.ts';
import { LESSON_SOCK, type Lesson, type LessonStep } from '../../src/sheet/lesson.ts';
import { MOST_LESSON_BYTES, readLesson } from '../../src/sheet/read-lesson.ts';
import { WORDS } from '../../src/words/words.ts';

const read = (text: string) => readLesson(text, WORDS.en.lesson);

function readStep(settings: string): { readonly step: LessonStep; readonly problems: readonly string[] } {
  const { lesson, problems } = read(`# L\n\n## Step\n\nText.\n\n\`\`\`sock\n${settings}\n\`\`\`\n`);
  const step = lesson?.steps[0];
  if (step === undefined) throw new Error('no step');
  return { step, problems: problems.map(({ message }) => message) };
}

const planOf = (file: Lesson['sock']): Plan => {
  const { plan, problems } = planSock(file);
  if (plan === null) throw new Error(problems.map(({ message }) => message).join(' '));
  return plan;
};

describe('a lesson', () => {
  it('has a title, an introduction, steps with their lines, and a sock for each', () => {
    const { lesson, problems } = read('# Heels\n\nHello.\n\n```sock\nheel.turnDownWidth: 10\nview: back\npass: heel start\n```\n\n## One\n\nText.\n\n## Two ##\n\n~~~ sock\nheel.turnDownWidth = 6\n~~~\n');
    expect(problems).toEqual([]);
    expect(lesson?.title).toBe('Heels');
    expect(lesson?.intro).toHaveLength(1);
    expect(lesson?.steps.map(({ title, line, sock, scene }) => [title, line, sock.heel?.turnDownWidth, scene])).toEqual([
      ['One', 11, 10, { view: 'back' }], ['Two', 15, 6, { view: 'back' }],
    ]);
    expect(lesson?.sock).toEqual({ ...LESSON_SOCK, heel: { ...LESSON_SOCK.heel, turnDownWidth: 10 } });
  });

  it('forgives what does not matter: line ends, a byte order mark, capitals, quotation marks, commas, list signs, comments', () => {
    const { lesson, problems } = read('\ufeff# L\r\n<!-- a\r\nnote -->\r\n## S\r\n```Sock\r\n- POSE = "tube",\r\n// note\r\n# note\r\n"HEEL.WRAPS": off\r\ncolors: Gap\r\ngauge.rowsPer10cm: 41,5\r\n```\r\n');
    expect(problems).toEqual([]);
    expect(lesson?.steps[0]?.scene).toEqual({ pose: 'tube', colours: 'gap' });
    expect(lesson?.steps[0]?.sock.heel?.wraps).toBe(false);
    expect(lesson?.steps[0]?.sock.gauge.rowsPer10cm).toBe(41.5);
  });

  it('takes a whole sock file as its sock', () => {
    const sock = readFileSync(new URL('../../public/socks/child.json', import.meta.url), 'utf8');
    const { lesson, problems } = read(`# L\n\`\`\`sock\n${sock}\n\`\`\`\n## S\n\`\`\`sock\nheel.plateauPasses: 4\n\`\`\`\n`);
    expect(problems).toEqual([]);
    expect(lesson?.sock.name).toBe((JSON.parse(sock) as { name: string }).name);
    expect(lesson?.steps[0]?.sock).toEqual({ ...lesson?.sock, heel: { ...lesson?.sock.heel, plateauPasses: 4 } });
  });

  it.each([
    ['pose: worn', { pose: 'worn' }],
    ['pass: 12', { pose: 'beds', pass: { kind: 'number', pass: 12 } }],
    ['pose: flat\npass: heel-out end - 2', { pose: 'flat', pass: { kind: 'part', part: 'heel-out', at: 'end', offset: -2 } }],
    ['play: heel-in before to heel-out end', { pose: 'beds', play: { from: { kind: 'part', part: 'heel-in', at: 'before', offset: 0 }, to: { kind: 'part', part: 'heel-out', at: 'end', offset: 0 } } }],
    ['play: 3 .. 9', { pose: 'beds', play: { from: { kind: 'number', pass: 3 }, to: { kind: 'number', pass: 9 } } }],
    ['view: three-quarter\nnear: heel\nfoot: glass\nline: mitre', { view: 'three-quarter', near: 'heel', foot: 'glass', line: 'mitre' }],
    ['compare: yes', { compare: 'beside' }],
    ['sliders: heel.turndownwidth, gauge.rowsPer10cm', { sliders: ['heel.turnDownWidth', 'gauge.rowsPer10cm'] }],
    ['sliders: none', { sliders: [] }],
  ])('understands %s', (settings, scene) => { expect(readStep(settings)).toMatchObject({ problems: [], step: { scene } }); });
});

describe('what is wrong is told by line, key, value and what would be right, and the rest runs', () => {
  it.each([
    ['poze: tube', ['Line 8', 'poze', 'Did you mean pose']],
    ['pose: upright', ['Line 8', 'pose', '“upright”', 'flat, tube, beds, worn']],
    ['turnDownWidth: 8', ['Line 8', 'turnDownWidth', 'heel.turnDownWidth']],
    ['heel.turnDownWdth: 8', ['Line 8', 'heel.turnDownWdth', 'Did you mean heel.turnDownWidth']],
    ['heel.turnDownWidth: 7', ['Line 8', 'heel.turnDownWidth', '“7”', 'even number from 2 to 398']],
    ['heel.turnDownWidth: 99', ['Line 8', 'heel.turnDownWidth', '“99”', 'even number from 2 to 22']],
    ['heel.turnDownWidth: 400', ['Line 8', '“400”', 'even number from 2 to 398']],
    ['heel.turnDownWidth: many', ['Line 8', '“many”', 'even number']],
    ['heel.turnDownWidth: 40', ['Line 8', 'heel.turnDownWidth', '“40”', 'cannot be knitted']],
    ['heel.wraps: perhaps', ['Line 8', '“perhaps”', 'true or false']],
    ['pass: hel-in start', ['Line 8', 'pass', 'hel-in', 'heel-in']],
    ['pass: heel-in strat', ['Line 8', 'strat', 'start']],
    ['pass: heel-ni end', ['Line 8', 'right would be heel-in end.']],
    ['pass: heel-in ned - 2', ['Line 8', 'right would be heel-in end - 2.']],
    ['play: heel-ni before to heel-out end', ['Line 8', 'right would be heel-in before to heel-out end.']],
    ['pass: toe-in start', ['Line 8', 'toe-in start', 'heel-out']],
    ['pass: 4000', ['Line 8', '“4000”', '0 to 164']],
    ['play: heel-in', ['Line 8', 'play', 'heel-in before to heel-out end']],
    ['sliders: heel.turnDownWidh', ['Line 8', 'heel.turnDownWidth']],
    ['name', ['Line 8', '“name” is no setting', 'key: value']],
    ['toString: 1', ['Line 8', 'toString']],
    ['__proto__: 1', ['Line 8']],
    ['heel: 3', ['Line 8', 'heel']],
    ['yarns.99.colour: #123456', ['Line 8', 'no such place']],
    ['yarns.0.colour: blue', ['Line 8', 'blue', '#rrggbb']],
    ['{ "gauge": 3 }', ['Line 8', 'Gauge']],
    ['{ broken', ['Line 8', 'JSON']],
  ])('%s', (settings, told) => {
    const { step, problems } = readStep(`${settings}\nview: back`.replace(/^(\{.*)\nview: back$/, '$1'));
    expect(problems.length).toBeGreaterThan(0);
    for (const part of told) expect(problems.join(' ')).toContain(part);
    expect(planSock(step.sock).plan).not.toBeNull();
    if (!settings.startsWith('{')) expect(step.scene.view).toBe('back');
  });

  it('keeps those settings that can be knitted, and leaves one out that cannot', () => {
    const { step, problems } = readStep('heel.plateauPasses: 4\nheel.turnDownWidth: 30\nheel.wraps: no');
    expect(problems).toHaveLength(1);
    expect(step.sock.heel).toEqual({ turnDownWidth: 8, plateauPasses: 4, wraps: false });
  });

  it('takes settings together that go only together', () => {
    const { step, problems } = readStep('toe.tipStitches: 40\ncounts.stitches: 120\nheel.turnDownWidth: 20');
    expect(problems).toEqual([]);
    expect(planOf(step.sock).toeTipStitches).toBe(40);
  });

  it.each([
    ['nothing', '', 'empty'],
    ['no step', '# Only a title\n\ntext', 'No step'],
    ['a picture', '\u0089PNG\r\n\u001a\n\u0000\u0000', 'no text'],
    ['a file of another kind', 'PK\u0003\u0004', 'no text'],
    ['too much', `## S\n${'x'.repeat(MOST_LESSON_BYTES)}`, '200 kB'],
  ])('%s is no lesson', (_, text, told) => {
    const { lesson, problems } = read(text);
    expect(lesson).toBeNull();
    expect(problems.map(({ message }) => message).join()).toContain(told);
    expect(problems[0]?.line).toBe(1);
  });

  it('ends an open block with its step', () => {
    const { lesson, problems } = read('# L\n## One\n```sock\npose: tube\n\n## Two\ntext\n```sock\npose: flat');
    expect(lesson?.steps.map(({ scene }) => scene.pose)).toEqual(['tube', 'flat']);
    expect(problems.map(({ line }) => line)).toEqual([3, 8]);
  });

  it('counts what is too much to tell', () => {
    const { problems } = read(`## S\n\`\`\`sock\n${'what\n'.repeat(100)}\`\`\``);
    expect(problems).toHaveLength(31);
    expect(problems.at(-1)?.message).toContain('70 more');
  });
});

describe('places of the work', () => {
  const plan = planOf(LESSON_SOCK), sections = listSections(plan);
  // Closed form (DESIGN.md): leg, 2 plain rows and the ankle come before the heel; H - W passes each way; see Plan.
  const before = plan.legPasses + plan.plainPasses + plan.anklePasses, n = plan.heelStitches - plan.turnDownWidth;
  it.each([
    ['heel-in before', before], ['heel-in', before + 1], ['heel-in start', before + 1], ['heel-in end', before + n], ['heel-out start', before + n + 1],
    ['heel-out end', before + 2 * n], ['heel end', before + 2 * n], ['foot start', before + 2 * n + 1], ['cast-on', 0], ['cast-on before', null],
    ['toe end', sections.length - 1], ['closing', sections.length - 1], ['closing + 1', null], ['heel-level', null], ['toe-out', null], ['0', 0], [String(sections.length), null],
  ])('%s is pass %s', (text, pass) => {
    const { lesson } = read(`## S\n\`\`\`sock\npass: ${text}\n\`\`\``), place = lesson?.steps[0]?.scene.pass;
    expect(place === undefined ? null : findPass(sections, place)).toBe(pass);
  });
});

describe('lessons of chance', () => {
  const built = ['en', 'de'].map((language) => readFileSync(new URL(`../../public/lessons/heel.${language}.md`, import.meta.url), 'utf8'));
  const BITS = ['```', '```sock\n', '## ', '# ', '\n', '{W}', '{x}', 'pose: ', 'heel-in', '**', '[', '](', '`', ': ', '<!--', '-->', '\u0000', '\ufffd', '{', '"', '9e9', '-', 'ß', '😀', 'yarns.0.colour: #fff\n', '__proto__: {}\n'];

  // Seeded: the same lessons every time. Whatever is cut, doubled or thrown in, it is read, and every problem names a line of the text.
  it('never throw, and every problem names a line that is there', () => {
    const random = createRandom(505);
    const below = (most: number): number => Math.floor(random() * most);
    let told = 0;
    for (let round = 0; round < 250; round++) {
      let text = built[round % 2];
      for (let change = below(12) + 1; change > 0; change--) {
        const at = below(text.length), end = at + below(40), bit = BITS[below(BITS.length)];
        text = text.slice(0, at) + (random() < 0.7 ? bit : '') + text.slice(random() < 0.5 ? at : end);
      }
      const { lesson, problems } = read(text), lines = text.split(/\r\n|\r|\n/).length;
      told += problems.length;
      for (const { line, message } of problems) {
        expect(line).toBeGreaterThanOrEqual(1);
        expect(line).toBeLessThanOrEqual(lines);
        expect(message.startsWith(`Line ${line}: `)).toBe(true);
      }
      if (lesson === null) expect(problems).toHaveLength(1);
      for (const { sock, scene } of lesson?.steps ?? []) {
        const { plan } = planSock(sock);
        expect(plan).not.toBeNull();
        if (plan !== null && scene.pass !== undefined) expect(findPass(listSections(plan), scene.pass)).not.toBeNull();
      }
    }
    expect(told).toBeGreaterThan(100);
  });

  it.each(['*', '_', '[', '`', '<!--', '{', '**a ', '[a](', '- ', '# ', '\\', '```\n', ' #', ': ', '## a\n'])('of %j alone, as long as a lesson may be, are read', (bit) => {
    const { lesson, problems } = read(`## S\n${bit.repeat(Math.floor((MOST_LESSON_BYTES - 10) / bit.length))}`);
    expect(lesson !== null || problems.length === 1).toBe(true);
  });
});
