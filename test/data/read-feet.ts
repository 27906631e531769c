import { readFileSync } from 'node:fs';

/** A row of feet-sample.csv, mm; see README.md beside it for where it comes from. */
export interface SurveyedFoot {
  readonly gender: string;
  readonly lengthMm: number;
  readonly ballGirthMm: number;
  readonly heelDiagonalMm: number;
  readonly ankleGirthMm: number;
  readonly calfGirthMm: number;
  readonly heelBreadthMm: number;
}

export function readFeet(): readonly SurveyedFoot[] {
  const lines = readFileSync(new URL('./feet-sample.csv', import.meta.url), 'utf8').trim().split(/\r?\n/);
  return lines.slice(1).map((line) => {
    const [gender, ...measures] = line.split(',');
    const [lengthMm, ballGirthMm, heelDiagonalMm, ankleGirthMm, calfGirthMm, heelBreadthMm] = measures.map(Number);
    return { gender, lengthMm, ballGirthMm, heelDiagonalMm, ankleGirthMm, calfGirthMm, heelBreadthMm };
  });
}
