import { describe, expect, test } from 'vitest';
import { readReportArgs } from '../../src/choose/report-args.ts';

describe('the words after report', () => {
  test.each([
    [['sock.json'], 'sock.json', ['flat', 'tube']],
    [['-'], '-', ['flat', 'tube']],
    [['sock.json', '--poses', 'none'], 'sock.json', []],
    [['--poses', 'tube,flat', 'sock.json'], 'sock.json', ['tube', 'flat']],
    [['--poses=flat', '-'], '-', ['flat']],
    [['sock.json', '--poses', 'tube,tube'], 'sock.json', ['tube']],
  ])('%j', (args, path, poses) => {
    expect(readReportArgs(args)).toEqual({ path, poses, wantsAdvice: false, wantsGrade: false, comparePath: null, problems: [] });
  });

  test.each([
    [['sock.json', '--advice'], { wantsAdvice: true, wantsGrade: false, comparePath: null }],
    [['--grade', 'sock.json', '--poses', 'none'], { wantsAdvice: false, wantsGrade: true, poses: [] }],
    [['sock.json', '--compare', 'other.json', '--advice'], { comparePath: 'other.json', wantsAdvice: true }],
    [['--compare=a=b.json', '-'], { comparePath: 'a=b.json', path: '-' }],
    [['sock.json', '--compare', '-'], { comparePath: '-', path: 'sock.json' }],
  ])('%j asks for more', (args, expected) => {
    expect(readReportArgs(args)).toMatchObject({ ...expected, problems: [] });
  });

  test.each([
    [['sock.json', '--compare']], [['sock.json', '--compare', '']], [['sock.json', '--compare', '--advice']], [['-', '--compare', '-']],
    [['sock.json', '--compare', 'a.json', '--compare', 'b.json']], [['sock.json', '--advice=yes']],
    [[]], [['a.json', 'b.json']], [['sock.json', '--poses']], [['sock.json', '--poses', '']], [['sock.json', '--poses', 'curled']],
    [['sock.json', '--poses', 'flat,']], [['sock.json', '--verbose']], [['--poses', 'none']], [['sock.json', '--poses', 'flat', '--poses=none']],
  ])('%j is a problem', (args: string[]) => {
    const { problems } = readReportArgs(args);
    expect(problems).toHaveLength(1);
    expect(Object.keys(problems[0]).sort()).toEqual(['allowed', 'field', 'message', 'value']);
  });
});
