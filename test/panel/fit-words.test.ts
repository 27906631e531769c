import { describe, expect, it } from 'vitest';
import type { FitAnswer, FitVerdict } from '../../src/measure/fit-answer.ts';
import { changeWords, costWords, misfitWords } from '../../src/panel/advice-words.ts';
import { fitSummary, guessedWords } from '../../src/panel/fit-words.ts';
import type { PageState } from '../../src/panel/page-state.ts';
import { offWords } from '../../src/panel/tolerance-card.ts';

const answer = (verdict: FitVerdict): FitAnswer => ({ question: 'heel', verdict, answer: '', because: '', basis: '', value: 0, unit: 'mm' });
const state = (pose: 'worn' | 'flat', kind: 'settled' | 'relaxing'): Pick<PageState, 'settings' | 'shape' | 'problems' | 'file'> => ({
  file: { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 255 } },
  settings: { pose } as PageState['settings'], problems: [], shape: kind === 'settled' ? { kind, milliseconds: 1 } : { kind, fraction: 0 },
});

describe('what the fit page says', () => {
  it.each([
    [['good', 'good'], 'Fits', '2 questions: 2 good.'],
    [['good', 'mind'], 'Fits, with something to mind', '2 questions: 1 to mind, 1 good.'],
    [['mind', 'poor', 'good'], 'Does not fit yet', '3 questions: 1 to change, 1 to mind, 1 good.'],
  ] as const)('sums up %j as “%s”', (verdicts, title, detail) => {
    expect(fitSummary(state('worn', 'settled'), verdicts.map(answer), false)).toEqual({ title, detail });
  });

  it('says whose foot it is where none is measured', () => {
    const { gauge } = state('worn', 'settled').file;
    expect(fitSummary({ ...state('worn', 'settled'), file: { gauge, counts: { stitches: 64, footPasses: 126 } } }, [answer('good')], false).title).toBe('On an average foot: fits');
  });

  it('says whether answers are missing, under way or out of date', () => {
    expect(fitSummary(state('flat', 'settled'), null, false).title).toBe('Does it fit?');
    expect(fitSummary(state('worn', 'relaxing'), null, false).title).toMatch(/being put on/i);
    expect(fitSummary(state('worn', 'relaxing'), [answer('good')], true)).toMatchObject({ title: 'Being put on again…', detail: expect.stringContaining('before your change') as string });
    expect(fitSummary(state('flat', 'settled'), [answer('good')], true).title).toMatch(/changed/);
    expect(fitSummary({ ...state('worn', 'settled'), problems: [{ field: null, value: null, allowed: null, message: '' }] }, [answer('good')], true).title).toMatch(/cannot be knitted/);
  });

  it('names the measures that nobody gave', () => {
    const gauge = { stitchesPer10cm: 30, rowsPer10cm: 42 };
    expect(guessedWords({ gauge })).toMatch(/average adult/);
    expect(guessedWords({ gauge, foot: { shoeSize: { system: 'uk', value: 6 }, ballGirthMm: 236, heelDiagonalMm: 330, ankleGirthMm: 220 } })).toBe('Not measured, so estimated: calf girth, heel breadth.');
    expect(guessedWords({ gauge, foot: { lengthMm: 175, ballGirthMm: 172 } })).toMatch(/scaled from theirs/);
    expect(guessedWords({ gauge, foot: { lengthMm: 255, ballGirthMm: 236 } })).not.toMatch(/scaled/);
    expect(guessedWords({ gauge, foot: { lengthMm: 255, ballGirthMm: 236, heelDiagonalMm: 330, ankleGirthMm: 220, calfGirthMm: 300, heelBreadthMm: 66 } })).toBe('');
  });
});

describe('what advice says', () => {
  it('tells changes and costs in the knitter’s words', () => {
    expect(changeWords([{ field: 'heel.turnDownWidth', from: 12, to: 8 }, { field: 'counts.footPasses', from: null, to: 124 }])).toBe('turn-down width 12 to 8, foot passes to 124');
    expect([costWords(282.4, 270), costWords(264, 270), costWords(1270.2, 1269.8), costWords(1270, null)]).toEqual(['282 (+12)', '264 (−6)', '1,270', '1,270']);
  });

  it('tells girths by what the cloth has to give, and lengths by their measure', () => {
    const of = (what: 'heel-line' | 'toe-length', wantedMm: number, gotMm: number, stretchPercent: number) => ({ what, wantedMm, gotMm, stretchPercent });
    expect(misfitWords(of('heel-line', 300, 258, 16.4), 'cm')).toBe('stretched 16 %');
    expect(misfitWords(of('heel-line', 300, 312, -4), 'cm')).toBe('loose 4 %');
    expect(misfitWords(of('heel-line', 300, 300, 0.2), 'cm')).toBe('as it lies');
    expect(misfitWords(of('toe-length', 60, 50.8, 9), 'in')).toBe('2.00 in, best 2.36');
    expect(misfitWords(of('toe-length', 60, 59, 1), 'cm')).toBe('5.9 cm');
  });

  it('a gauge that is off tells the larger of the two ways', () => {
    expect([offWords(3.62, -3.5, 'cm'), offWords(2.54, -2.5, 'in'), offWords(0, 0, 'cm')]).toEqual(['± 3.6', '± 0.10', '–']);
  });
});
