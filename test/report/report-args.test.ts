import { describe, expect, test } from 'vitest';
import { readReportArgs } from '../../src/pipeline/report-args.ts';

describe('the words after report', () => {
  test.each([
    [['sock.json'], 'sock.json', ['flat', 'tube']],
    [['-'], '-', ['flat', 'tube']],
    [['sock.json', '--poses', 'none'], 'sock.json', []],
    [['--poses', 'tube,flat', 'sock.json'], 'sock.json', ['tube', 'flat']],
    [['--poses=flat', '-'], '-', ['flat']],
    [['sock.json', '--poses', 'tube,tube'], 'sock.json', ['tube']],
  ])('%j', (args, path, poses) => {
    expect(readReportArgs(args)).toEqual({ path, poses, problems: [] });
  });

  test.each([
    [[]], [['a.json', 'b.json']], [['sock.json', '--poses']], [['sock.json', '--poses', '']], [['sock.json', '--poses', 'curled']],
    [['sock.json', '--poses', 'flat,']], [['sock.json', '--verbose']], [['--poses', 'none']],
  ])('%j is a problem', (args: string[]) => {
    const { problems } = readReportArgs(args);
    expect(problems).toHaveLength(1);
    expect(Object.keys(problems[0]).sort()).toEqual(['allowed', 'field', 'message', 'value']);
  });
});
