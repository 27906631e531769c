import { findLoopStays, type LoopStays } from '../machine/loop-stays.ts';
import { findLoopLength } from '../yarn/loop-length.ts';
import type { KnittedSock } from '../pipeline/result.ts';
import { type Forming, prepareForming } from '../yarn/form-loops.ts';
import { bedsOfPass, type FormNeedle, type KnittedPass, readFormNeedles, tellingNeedle, windowRound } from '../yarn/form-needles.ts';
import { readFormScene } from '../yarn/form-scene.ts';
import { packedDiameterMm } from '../yarn/yarn-size.ts';

/** The needles of one pass that can be seen from near, and those that are. */
export interface CloseNeedles {
  readonly knitted: KnittedSock;
  readonly pass: number;
  readonly all: readonly FormNeedle[];
  /** The shown ones are `forming.scene.source.needles`, from this one of all on. */
  readonly first: number;
  readonly forming: Forming;
  /** Which of the shown ones is followed. */
  readonly followed: number;
}

/** Needles shown at once. */
export const SHOWN = 7;

let kept: { readonly knitted: KnittedSock; readonly stays: LoopStays } | null = null;

/** Where every loop of a sock hangs, followed once. */
function staysOf(knitted: KnittedSock): LoopStays {
  if (kept?.knitted !== knitted) kept = { knitted, stays: findLoopStays(knitted.program, knitted.grid, knitted.trace) };
  return kept.stays;
}

/** Needles of a pass round the one that a stitch hangs on, is made on or is worked into; else round the one that tells most. Null where nothing knits. */
export function openNeedles(knitted: KnittedSock, pass: number, loop: number): CloseNeedles | null {
  const { grid, trace } = knitted, what: KnittedPass = { grid, trace, stays: staysOf(knitted), pass };
  if (pass < 1 || pass >= trace.passes.length) return null;
  const all = readFormNeedles(what, bedsOfPass(what));
  if (all.length === 0) return null;
  const round = loop < 0 ? -1 : all.findIndex(({ made, loops, wraps, laid }) => made === loop || loops.includes(loop) || wraps.includes(loop) || laid.includes(loop));
  return show(knitted, pass, all, round < 0 ? tellingNeedle(all) : round);
}

/** The same pass at other needles; the one of all that is to be followed lies among them. */
export function moveNeedles({ knitted, pass, all }: CloseNeedles, to: number): CloseNeedles {
  return show(knitted, pass, all, Math.min(all.length - 1, Math.max(0, to)));
}

function show(knitted: KnittedSock, pass: number, all: readonly FormNeedle[], at: number): CloseNeedles {
  const { grid, trace, plan } = knitted, needles = windowRound(all, at, SHOWN);
  const scene = readFormScene({
    grid, trace, stays: staysOf(knitted), pass, needles, pitchMm: plan.needlePitchMm,
    loopMm: findLoopLength(10 * plan.stitchesPerMm, 10 * plan.rowsPerMm), diameterMm: Float64Array.from(plan.yarns, ({ metresPer100g }) => packedDiameterMm(metresPer100g)),
  });
  return { knitted, pass, all, first: all.indexOf(needles[0]), forming: prepareForming(scene), followed: at - all.indexOf(needles[0]) };
}
