import { runToEnd } from '../../src/base/run-to-end.ts';
import { createGrower } from '../../src/pipeline/grow-sock.ts';
import type { Grower } from '../../src/pipeline/grow-sock.ts';
import type { Keyframe } from '../../src/pipeline/hang-at.ts';
import { createSockHanger } from '../../src/pipeline/hang-sock.ts';
import type { SockHanger } from '../../src/pipeline/hang-sock.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

const SMALL = { gauge: { stitchesPer10cm: 14, rowsPer10cm: 20 }, counts: { stitches: 20, legPasses: 6, footPasses: 8 }, heel: { turnDownWidth: 4 } } as const;

/** Small socks of every kind that hangs differently. */
export const GROWING: readonly (readonly [name: string, file: SockFile])[] = [
  ['flat rib leg, decreased toe', SMALL],
  ['tube leg, fast toe', { ...SMALL, leg: { kind: 'tube' }, toe: { passesPerDecrease: 2 } }],
  ['no wraps, plateau, short-row toe, on the back bed', { ...SMALL, leg: { gatherBed: 'front' }, heel: { turnDownWidth: 4, plateauPasses: 2, wraps: false }, toe: { kind: 'short-row' } }],
];

/** Long enough to have passes far from any keyframe. */
export const LONG: SockFile = { ...SMALL, counts: { stitches: 20, legPasses: 20, footPasses: 40 } };

export function knitOrThrow(file: SockFile): KnittedSock {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  return sock;
}

export interface Grown { readonly sock: KnittedSock; readonly hanger: SockHanger; readonly grower: Grower; readonly made: readonly Keyframe[] }

const grown = new Map<SockFile, Grown>();

/** A sock with all its keyframes made for someone who looks at a pass; made once. */
export function growAll(file: SockFile, lookedAt = 25): Grown {
  const known = grown.get(file);
  if (known !== undefined) return known;
  const sock = knitOrThrow(file), hanger = createSockHanger(sock), grower = createGrower(sock, hanger.growth, hanger.book), made: Keyframe[] = [];
  const attention = { pass: lookedAt, isResting: false };
  for (let task = grower.next(attention); task !== null; task = grower.next(attention)) made.push(runToEnd(grower.make(task)));
  const all: Grown = { sock, hanger, grower, made };
  grown.set(file, all);
  return all;
}
