import { runToEnd } from '../base/run-to-end.ts';
import { buildPartFabric } from '../fabric/build-part-fabric.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { makeFormMesh } from '../foot/form-mesh.ts';
import type { FormMesh } from '../foot/form-mesh.ts';
import { makeFootForm } from '../foot/foot-form.ts';
import type { FootForm } from '../foot/foot-form.ts';
import { SECTION } from '../machine/codes.ts';
import { gridAtPass } from '../machine/grid-at-pass.ts';
import { measurePose } from '../measure/measure-pose.ts';
import { measureStretch } from '../measure/measure-stretch.ts';
import { interpolateSock, mapShape, relaxHeldInSteps, relaxInSteps, setUpBeds, setUpWorn } from '../shape/index.ts';
import type { FreePoseName, Pose, PoseName, RelaxOptions } from '../shape/index.ts';
import { findHolding } from './find-holding.ts';
import { knitCoarse } from './knit-coarse.ts';
import type { KnittedSock, PosedSock } from './result.ts';
import { usualPass } from './usual-pass.ts';

/** A sock's shape that is at hand, from which that of another may go on. */
export interface NearShape {
  readonly fabric: Fabric;
  readonly positions: Float64Array;
}

export interface PoseOptions extends Omit<RelaxOptions, 'start' | 'coarse' | 'firmness'> {
  /** The same pose of a sock that is nearly this one. For the free poses only; the shape at rest is the same, only sooner found. */
  readonly near?: NearShape;
  /** On the beds: after which pass; default the heel's last but one. Beyond the last it is the last. */
  readonly pass?: number;
}

/** The shown foot is this much smaller all round than the real one, and reaches so far over the sock's top, mm; chosen by eye. */
const SHOWN_FOOT_INSET_MM = 0.5;
const FOOT_OVER_TOP_MM = 45;

/** Relaxes a sock into a pose and measures it there. */
export function poseSock(sock: KnittedSock, name: PoseName, options: PoseOptions = {}): PosedSock {
  return runToEnd(poseInSteps(sock, name, options));
}

/** The same, yielding often, so that a caller may do other things in between. */
export function* poseInSteps(sock: KnittedSock, name: PoseName, options: PoseOptions = {}): Generator<void, PosedSock> {
  switch (name) {
    case 'flat': case 'tube': return measured(sock.fabric, yield* poseFree(sock, name, options));
    case 'worn': {
      const foot = footOf(sock), pose = yield* relaxHeldInSteps(sock.fabric, name, setUpWorn(sock.fabric, foot, sock.plan.firmness), options);
      return { ...measured(sock.fabric, pose), body: showFoot(foot, pose) };
    }
    case 'beds': {
      const pass = Math.min(sock.trace.passes.length - 1, Math.max(0, options.pass ?? usualPass(sock)));
      const { grid, liveNeedles } = gridAtPass(sock.program, sock.grid, sock.trace, pass);
      const fabric = buildPartFabric(grid, sock.fabric), { needlesPerBed, needlePitchMm, firmness } = sock.plan;
      const setUp = setUpBeds({ fabric, grid, liveNeedles, needlesPerBed, needlePitchMm, firmness });
      const pose = yield* relaxHeldInSteps(fabric, name, setUp, options);
      return { ...measured(fabric, pose), part: { fabric, grid, pass, holding: findHolding(sock, pass, { fabric, grid }, setUp.claw, pose.positions) } };
    }
  }
}

/** The simple form of the foot that a sock was planned for. */
export function footOf({ file, foot }: KnittedSock): FootForm {
  return makeFootForm({
    lengthMm: foot.lengthMm, ballGirthMm: foot.ballGirthMm, calfGirthMm: foot.calfGirthMm,
    ankleGirthMm: file.foot?.ankleGirthMm ?? null, heelDiagonalMm: file.foot?.heelDiagonalMm ?? null,
  });
}

function poseFree(sock: KnittedSock, name: FreePoseName, { near, ...given }: PoseOptions): Generator<void, Pose> {
  const options = { ...given, firmness: sock.plan.firmness };
  if (near === undefined || !hasSameParts(near.fabric, sock.fabric)) return relaxInSteps(sock.fabric, name, options);
  const start = mapShape(interpolateSock(near.fabric, sock.fabric), near.positions), coarse = knitCoarse(sock.plan, sock.trace.loops);
  return relaxInSteps(sock.fabric, name, { ...options, start, ...(coarse === null ? {} : { coarse }) });
}

/** A decreased and a short-row toe have no shape in common; nor have a leg sewn up and one knitted round, where the work is turned. */
function hasSameParts(a: Fabric, b: Fabric): boolean {
  return [SECTION['toe-in'], SECTION.plain].every((part) => a.vertexSection.includes(part) === b.vertexSection.includes(part));
}

/** The foot up to a hand's breadth over the sock's top. */
function showFoot(foot: FootForm, { positions }: Pose): FormMesh {
  let top = foot.ankleMm;
  for (let i = 2; i < positions.length; i += 3) top = Math.max(top, positions[i]);
  return makeFormMesh(foot, top + FOOT_OVER_TOP_MM, SHOWN_FOOT_INSET_MM);
}

function measured(fabric: Fabric, pose: Pose): PosedSock {
  const { measures, lines } = measurePose(fabric, pose.positions);
  return { pose, measures, lines, stretch: measureStretch(fabric, pose.positions), part: null, body: null, worn: null };
}
