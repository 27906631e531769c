import { cos, sin } from '../base/portable-math.ts';
import type { Fabric } from '../fabric/fabric.ts';
import type { FootForm } from '../foot/foot-form.ts';
import type { Body } from '../foot/round-cones.ts';
import { SECTION } from '../machine/codes.ts';
import { createBending, createDirectionHold, createDistanceContact, createPreconditioner } from '../solve/index.ts';
import type { EnergyTerm } from '../solve/index.ts';
import { makeClothBending } from './cloth-bending.ts';
import { METRIC_SHIFT, onFirstUse } from './pose-problem.ts';
import { clothOf, SOCK_CLOTH } from './cloth-table.ts';
import type { Firmness } from './cloth-table.ts';
import type { PoseSetUp } from './pose-set-up.ts';
import { makeStretchedCloth, WORN_BENDING } from './rib-cloth.ts';
import { isHeelSection } from './sock-profile.ts';
import { HEEL_TURN, startWorn } from './worn-start.ts';
import type { WornStart } from './worn-start.ts';

/** Stiffness of skin and cloth against being pressed together, N/mm^3. `chosen by eye`: a pressure of 20 mmHg (2.7e-3 N/mm^2) presses in by a quarter of a millimetre. */
export const SKIN_STIFFNESS = 0.01;
/** Shares of the terms in the metric: cloth drawn wide is stiffer than at rest, skin counts across one direction of three only. `measured`: fewest iterations. */
const CLOTH_METRIC_SHARE = 4;
const SKIN_METRIC_SHARE = 0.03;
/** Stiffness with which cloth keeps its place where it grips, N/mm^3. `chosen by eye`: it gives by a millimetre or two. */
export const GRIP_STIFFNESS = 2e-4;
/** The start lies this much off the skin, mm. */
const START_GAP_MM = 0.2;

/** A sock to be put on a foot. */
export interface WornSetUp extends PoseSetUp {
  /** Forces of the cloth alone on its vertices, three entries each, N: its tension and its bending, without skin and grip. */
  readonly clothForces: (positions: Float64Array) => Float64Array;
  /** Distance from the skin of cloth that lies on it and is not pressed, mm. */
  readonly clearanceMm: number;
}

/**
 * A sock on a foot, in the foot's axes. Cloth keeps half its thickness off the skin and slides on it
 * without friction; only the top grips: without that a stretched leg would slide down the calf. The
 * cast-on keeps the height at which the leg, drawn wide, is neither pulled long nor pushed together.
 * `skin` is the foot's distance, or a quicker one that is as good.
 */
export function setUpWorn(fabric: Fabric, foot: FootForm, firmness: Firmness = 'soft', skin: Body = foot): WornSetUp {
  const clearanceMm = SOCK_CLOTH.thicknessMm / 2, body = { ...foot, distanceAt: skin.distanceAt };
  const start = startWorn(fabric, body, clearanceMm + START_GAP_MM);
  const cloth = makeStretchedCloth(fabric, 'worn', firmness), contact = makeSkin(fabric, skin, clearanceMm), grip = makeGrip(fabric, foot, start);
  const { courseBending, waleBending, ...plain } = clothOf(firmness);
  const bending = createBending(makeClothBending(fabric, { ...plain, courseBending: WORN_BENDING * courseBending, waleBending: WORN_BENDING * waleBending }));
  const parts = [...cloth.map((term) => ({ term, factor: CLOTH_METRIC_SHARE })), { term: contact, factor: 1 }, { term: grip, factor: 1 }];
  return {
    problem: {
      terms: [...cloth, bending, contact, grip], bending,
      preconditioner: onFirstUse(() => createPreconditioner(fabric.vertexCount, [{ axes: [0, 1, 2], parts }], METRIC_SHIFT)),
    },
    get start() { return start.positions(); }, clearanceMm,
    clothForces: (positions) => {
      const gradient = new Float64Array(positions.length);
      for (const term of [...cloth, bending]) term.addGradient(positions, gradient);
      return gradient.map((value) => -value);
    },
  };
}

function makeSkin(fabric: Fabric, skin: Body, clearance: number): EnergyTerm {
  const stiffness = SKIN_STIFFNESS * fabric.courseMm * fabric.waleMm;
  const contact = createDistanceContact({ field: skin, clearances: new Float64Array(fabric.vertexCount).fill(clearance), stiffness });
  return {
    ...contact,
    addMetric(sink) {
      for (let v = 0; v < fabric.vertexCount; v++) sink.addDiagonal(v, SKIN_METRIC_SHARE * stiffness);
    },
  };
}

/**
 * What stands for friction: the leg's rows above the ankle, the cast-on among them, keep their height,
 * where the leg widens and would let them slide; the heel's rows keep their place on the way from the
 * leg's back to the sole, or the tight line over instep and heel would slip off the heel. Round the leg
 * and the heel the cloth is free, and so is a top that ends below the ankle: the heel holds it, and its
 * front would not lie level.
 */
function makeGrip(fabric: Fabric, foot: FootForm, { heelPlace, heights }: WornStart): EnergyTerm {
  const nodes: number[] = [], directions: number[] = [], offsets: number[] = [];
  for (let v = 0; v < fabric.vertexCount; v++) {
    const section = fabric.vertexSection[v], height = heights[Math.round(fabric.vertexRow[v])];
    if ((section === SECTION['cast-on'] || section === SECTION.leg) && height > foot.ankleMm) {
      nodes.push(v);
      directions.push(0, 0, 1);
      offsets.push(height);
    } else if (isHeelSection(section)) {
      const angle = HEEL_TURN * fabric.vertexFan[v], x = sin(angle), z = -cos(angle), place = heelPlace(v);
      nodes.push(v);
      directions.push(x, 0, z);
      offsets.push(place[0] * x + place[2] * z);
    }
  }
  return createDirectionHold({
    nodes: Int32Array.from(nodes), directions: Float64Array.from(directions), offsets: Float64Array.from(offsets),
    stiffness: GRIP_STIFFNESS * fabric.courseMm * fabric.waleMm,
  });
}
