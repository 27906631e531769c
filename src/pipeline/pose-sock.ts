import { runToEnd } from '../base/run-to-end.ts';
import { buildPartFabric } from '../fabric/build-part-fabric.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { makeFormMesh } from '../foot/form-mesh.ts';
import type { FormMesh } from '../foot/form-mesh.ts';
import type { FootForm } from '../foot/foot-form.ts';
import type { Body } from '../foot/round-cones.ts';
import { SECTION } from '../machine/codes.ts';
import { gridAtPass } from '../machine/grid-at-pass.ts';
import { measurePose } from '../measure/measure-pose.ts';
import { measureStretch } from '../measure/measure-stretch.ts';
import { measureWorn } from '../measure/measure-worn.ts';
import { interpolateSock, mapShape, relaxHeldInSteps, relaxInSteps, setUpBeds, setUpWorn } from '../shape/index.ts';
import type { FreePoseName, Pose, PoseName, RelaxOptions } from '../shape/index.ts';
import { findHolding } from './find-holding.ts';
import { sampledFootOf } from './foot-of.ts';
import { knitCoarse } from './knit-coarse.ts';
import type { KnittedSock, PosedSock } from './result.ts';
import { usualPass } from './usual-pass.ts';

/** A sock's shape that is at hand, from which that of another may go on. */
export interface NearShape {
  readonly fabric: Fabric;
  readonly positions: Float64Array;
}

export interface PoseOptions extends Omit<RelaxOptions, 'start' | 'coarse' | 'firmness'> {
  /** The same pose of a sock that is nearly this one; unused on the beds. The shape at rest is the same, only sooner found. */
  readonly near?: NearShape;
  /** On the beds: after which pass; default the heel's last but one. Beyond the last it is the last. */
  readonly pass?: number;
  /** On the beds: where the loops knitted by that pass hang, nearly; three entries a vertex, mm. The shape at rest is the same but for folds that could lie one way or another, and sooner found. */
  readonly hung?: Float64Array;
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
    case 'worn': return yield* poseWorn(sock, options);
    case 'beds': {
      const pass = Math.min(sock.trace.passes.length - 1, Math.max(0, options.pass ?? usualPass(sock)));
      const { grid, liveNeedles } = gridAtPass(sock.program, sock.grid, sock.trace, pass);
      const fabric = buildPartFabric(grid, sock.fabric), { needlesPerBed, needlePitchMm, firmness } = sock.plan;
      const setUp = setUpBeds({ fabric, grid, liveNeedles, needlesPerBed, needlePitchMm, firmness });
      const start = options.hung?.length === setUp.start.length ? { start: options.hung } : {};
      const pose = yield* relaxHeldInSteps(fabric, name, setUp, { ...options, ...start });
      return { ...measured(fabric, pose), part: { fabric, grid, pass, holding: findHolding(sock, pass, { fabric, grid }, setUp.claw, pose.positions) } };
    }
  }
}

function* poseWorn(sock: KnittedSock, { near, ...options }: PoseOptions): Generator<void, PosedSock> {
  const { fabric, plan } = sock, { foot, skin } = sampledFootOf(sock), setUp = setUpWorn(fabric, foot, plan.firmness, skin);
  const nearby = goOnFrom(sock, near), isOnFoot = nearby.start !== undefined && liesOnFoot(nearby.start, skin);
  const pose = yield* relaxHeldInSteps(fabric, 'worn', setUp, { ...options, ...(isOnFoot ? nearby : {}) });
  const { clearanceMm } = setUp, { positions } = pose;
  const worn = measureWorn({ plan, fabric, foot, positions, forces: setUp.clothForces(positions), clearanceMm });
  return { ...measured(fabric, pose), body: showFoot(foot, pose), worn };
}

function poseFree(sock: KnittedSock, name: FreePoseName, { near, ...given }: PoseOptions): Generator<void, Pose> {
  return relaxInSteps(sock.fabric, name, { ...given, firmness: sock.plan.firmness, ...goOnFrom(sock, near) });
}

/** Where to start from when a shape is at hand that is near; nothing when there is none. */
function goOnFrom({ fabric, plan, trace }: KnittedSock, near: NearShape | undefined): Pick<RelaxOptions, 'start' | 'coarse'> {
  if (near === undefined || !hasSameParts(near.fabric, fabric)) return {};
  const start = mapShape(interpolateSock(near.fabric, fabric), near.positions), coarse = knitCoarse(plan, trace.loops);
  return coarse === null ? { start } : { start, coarse };
}

/**
 * Cloth of a sock that was on another foot may start from there only if that foot was nearly this one: a
 * sock that starts half inside the foot, or far off it, comes to rest beside it. No loop deeper than this in
 * the foot, nor all of them farther off than that on average, mm; `chosen by eye`: feet a centimetre apart.
 */
const DEEPEST_MM = 8, FARTHEST_MM = 5;

function liesOnFoot(positions: Float64Array, skin: Body): boolean {
  const normal = new Float64Array(3);
  let off = 0;
  for (let i = 0; i < positions.length; i += 3) {
    const distance = skin.distanceAt(positions[i], positions[i + 1], positions[i + 2], normal);
    if (distance < -DEEPEST_MM) return false;
    off += Math.max(0, distance);
  }
  return off <= FARTHEST_MM * positions.length / 3;
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
