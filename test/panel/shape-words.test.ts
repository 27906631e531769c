import { describe, expect, it } from 'vitest';
import { FIRST_SETTINGS, readSettings } from '../../src/main/settings.ts';
import { passWords } from '../../src/panel/pass-bar.ts';
import { shapeWords } from '../../src/panel/stage-bar.ts';
import type { PosedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import type { PoseName, PoseStatus } from '../../src/shape/pose.ts';

const FILE: SockFile = { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 250 } };

function wordsOf(pose: PoseName, status: PoseStatus, residual: number, file = FILE): ReturnType<typeof shapeWords> {
  const posed = { pose: { status, residual } } as PosedSock;
  return shapeWords({ shape: { kind: 'settled', milliseconds: 1 }, posed, settings: { ...FIRST_SETTINGS, pose }, file });
}

describe('the words on how a shape stands', () => {
  it.each([
    ['flat', 'At rest, laid flat'], ['tube', 'At rest, as a tube'], ['beds', 'At rest, on the beds'], ['worn', 'At rest, on a foot of your measures'],
  ] as const)('of a converged %s say that it is at rest, without a mark', (pose, text) => {
    expect(wordsOf(pose, 'converged', 0.0009)).toEqual({ text, isUnsettled: false });
  });

  it('say of a foot that nothing is known of that it is an average one', () => {
    expect(wordsOf('worn', 'converged', 0, { gauge: FILE.gauge, counts: { stitches: 64, footPasses: 120 } }).text).toBe('At rest, on an average foot');
  });

  it.each([
    ['stalled', 0.0042, 'Not quite at rest, as a tube: forces are still 0.4 % out of balance; measures are approximate'],
    ['stalled', 0.0251, 'Not quite at rest, as a tube: forces are still 3 % out of balance; measures are approximate'],
    ['budget', 0.127, 'Not yet at rest, as a tube: forces are still 13 % out of balance; measures are approximate'],
    ['budget', Infinity, 'Not yet at rest, as a tube: forces are far out of balance; measures are approximate'],
  ] as const)('of one that is not (%s, residual %d) say by how much, with a mark', (status, residual, text) => {
    expect(wordsOf('tube', status, residual)).toEqual({ text, isUnsettled: true });
  });

  it('while it relaxes, name the pose', () => {
    const words = shapeWords({ shape: { kind: 'relaxing', fraction: 0 }, posed: null, settings: { ...FIRST_SETTINGS, pose: 'beds' }, file: FILE });
    expect(words).toEqual({ text: 'The cloth is relaxing, on the beds…', isUnsettled: false });
  });
});

describe('the words on a pass', () => {
  it.each([
    [142, 'heel-out', 'pass 142 of 240, heel turning out'], [3, 'leg', 'pass 3 of 240, leg'], [240, 'toe-in', 'pass 240 of 240, toe turning down'],
    [0, 'cast-on', 'cast-on, before the first of 240 passes'],
  ] as const)('%d in %s', (pass, section, text) => {
    expect(passWords({ pass, section }, 240)).toBe(text);
  });
});

describe('the pose that is kept for the next visit', () => {
  it.each(['flat', 'tube', 'beds', 'worn'] as const)('may be %s', (pose) => {
    expect(readSettings(JSON.stringify({ pose })).pose).toBe(pose);
  });

  it.each(['"bed"', '7', 'null', '["worn"]'])('falls back from %s', (pose) => {
    expect(readSettings(`{"pose": ${pose}}`).pose).toBe(FIRST_SETTINGS.pose);
  });
});
