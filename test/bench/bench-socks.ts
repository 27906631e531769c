import type { KnittedSock } from '../../src/pipeline/result.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

/** One foot at ever finer gauges; at the finest, a longer leg. */
export function benchSock(fineness: number, legMm = 110): SockFile {
  return {
    gauge: { stitchesPer10cm: 30 * fineness, rowsPer10cm: 42 * fineness },
    foot: { lengthMm: 262, ballGirthMm: 246 },
    leg: { lengthMm: legMm },
    machine: { needlesPerBed: 400 },
  };
}

/** About ten thousand loops: the size that the goals are set for. */
export const TEN_THOUSAND = benchSock(1);

/** From about 2,500 to about 220,000 loops. */
export const LADDER: readonly SockFile[] = [
  benchSock(0.5), benchSock(0.75), TEN_THOUSAND, benchSock(1.5), benchSock(2), benchSock(3), benchSock(3.8), benchSock(4, 260),
];

/** @throws Error if the sock cannot be knitted: then the bench's own file is wrong. */
export function knitOrThrow(file: SockFile): KnittedSock {
  const outcome = knitSock(file);
  if (outcome.sock === null) throw new Error(outcome.problems.map((problem) => problem.message).join(' '));
  return outcome.sock;
}
