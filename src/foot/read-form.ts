import { cos, sin } from '../base/portable-math.ts';
import type { CompleteMeasures } from './complete-measures.ts';
import type { FootGirths } from './foot-form.ts';
import { farthestAlong, girthOfRadii, TAPE_RAYS, traceRadiiInto } from './form-tapes.ts';
import type { TapePlane } from './form-tapes.ts';
import type { LaidFoot } from './lay-cones.ts';
import type { Body } from './round-cones.ts';
import type { Point } from './trace-section.ts';

export type FormTapes = Readonly<Record<keyof FootGirths, TapePlane>>;

/** What is measured on a form. */
export interface FormReading {
  readonly girths: FootGirths;
  readonly tapes: FormTapes;
  /** x of heel and toes at their farthest; the toes' foremost point. */
  readonly rearMm: number;
  readonly frontMm: number;
  readonly tip: Point;
  readonly heelBreadthMm: number;
  /** Heights of the lowest points under heel, ball and toes. */
  readonly floorMm: number;
  readonly ballFloorMm: number;
  readonly toeFloorMm: number;
}

/** Inclination of the plane over heel tip and instep that is tried first, and steps either way, degrees: a tape slides to the least girth. */
const INCLINATION = 50, INCLINATION_STEP = 4, LEAST_INCLINATION = 26, MOST_INCLINATION = 74;
const SLIDES = 5;

/** Reads forms of one foot, one after the other: each from what it found on the one before. */
export function createFormReader(measures: CompleteMeasures): (body: Body, laid: LaidFoot) => FormReading {
  const { lengthMm } = measures;
  const rings = { ball: new Float64Array(TAPE_RAYS), ankle: new Float64Array(TAPE_RAYS), calf: new Float64Array(TAPE_RAYS), diagonal: new Float64Array(TAPE_RAYS) };
  let inclination = INCLINATION;

  function readGirth(ring: Float64Array, body: Body, plane: TapePlane, guessMm: number): number {
    traceRadiiInto(ring, body, plane, guessMm);
    return girthOfRadii(ring);
  }

  /** The least girth over heel and instep: the lowest of a parabola through three planes, after sliding until the middle one is least. */
  function readDiagonal(body: Body, laid: LaidFoot): { readonly girth: number; readonly plane: TapePlane } {
    const girthAt = (degrees: number): number => readGirth(rings.diagonal, body, diagonalPlane(body, laid, degrees, lengthMm), 0.3 * lengthMm);
    let low = girthAt(inclination - INCLINATION_STEP), mid = girthAt(inclination), high = girthAt(inclination + INCLINATION_STEP);
    for (let k = 0; k < SLIDES && (low < mid || high < mid); k++) {
      const next = inclination + (low < high ? -INCLINATION_STEP : INCLINATION_STEP);
      if (next < LEAST_INCLINATION || next > MOST_INCLINATION) break;
      inclination = next;
      if (low < high) { high = mid; mid = low; low = girthAt(inclination - INCLINATION_STEP); }
      else { low = mid; mid = high; high = girthAt(inclination + INCLINATION_STEP); }
    }
    const bend = low - 2 * mid + high, shift = bend > 0 ? Math.min(1, Math.max(-1, 0.5 * (low - high) / bend)) : 0;
    const degrees = inclination + shift * INCLINATION_STEP, plane = diagonalPlane(body, laid, degrees, lengthMm);
    return { girth: readGirth(rings.diagonal, body, plane, 0.3 * lengthMm), plane };
  }

  return (body, laid) => {
    const tapes = { ballGirthMm: ballPlane(laid), ankleGirthMm: levelPlane(laid.ankle), calfGirthMm: levelPlane(laid.calf) };
    const diagonal = readDiagonal(body, laid);
    const down = (near: Point): number => -farthestAlong(body, [0, 0, -1], [near[0], near[1], -laid.heelRadius]).reachMm;
    const front = Math.max(...laid.toes.map((toe) => toe[0]));
    const foremost = laid.toes.filter((toe) => toe[0] > front - 0.02 * lengthMm)
      .map((toe) => farthestAlong(body, [1, 0, 0], [front + 0.05 * lengthMm, toe[1], toe[2]])).reduce((a, b) => (b.reachMm > a.reachMm ? b : a));
    return {
      girths: {
        ballGirthMm: readGirth(rings.ball, body, tapes.ballGirthMm, 0.15 * lengthMm),
        ankleGirthMm: readGirth(rings.ankle, body, tapes.ankleGirthMm, 0.15 * lengthMm),
        calfGirthMm: readGirth(rings.calf, body, tapes.calfGirthMm, 0.2 * lengthMm),
        heelDiagonalMm: diagonal.girth,
      },
      tapes: { ...tapes, heelDiagonalMm: diagonal.plane },
      rearMm: -farthestAlong(body, [-1, 0, 0], [0, laid.heel[1], laid.heel[2]]).reachMm,
      frontMm: foremost.reachMm, tip: foremost.point,
      heelBreadthMm: readHeelBreadth(body, laid),
      floorMm: down(laid.heel),
      ballFloorMm: Math.min(down(laid.innerBall), down(laid.outerBall)),
      toeFloorMm: down(laid.toes[1]),
    };
  };
}

/** What the same would be on the mirrored form. */
export function mirrorReading(reading: FormReading): FormReading {
  const over = ([x, y, z]: Point): Point => [x, -y, z], plane = ({ centre, u, v }: TapePlane): TapePlane => ({ centre: over(centre), u: over(u), v: over(v) });
  const { ballGirthMm, heelDiagonalMm, ankleGirthMm, calfGirthMm } = reading.tapes;
  const tapes = { ballGirthMm: plane(ballGirthMm), heelDiagonalMm: plane(heelDiagonalMm), ankleGirthMm: plane(ankleGirthMm), calfGirthMm: plane(calfGirthMm) };
  return { ...reading, tapes, tip: over(reading.tip) };
}

/** Breadth of the heel's upright section through its middle. */
function readHeelBreadth(body: Body, { heel, heelRadius }: LaidFoot): number {
  const side = (way: number): number => farthestAlong(inSection(body), [0, way, 0], [heel[0], way * heelRadius, heel[2]]).reachMm;
  return side(1) + side(-1);
}

/** A body whose gradient along x is not seen, so that a search stays in its section. */
function inSection(body: Body): Body {
  return {
    distanceAt(x, y, z, normal) {
      const d = body.distanceAt(x, y, z, normal);
      normal[0] = 0;
      return d;
    },
  };
}

function levelPlane(centre: Point): TapePlane { return { centre, u: [1, 0, 0], v: [0, 1, 0] }; }

/** Upright, over the inner and the outer ball. */
function ballPlane({ innerBall, outerBall }: LaidFoot): TapePlane {
  const dx = innerBall[0] - outerBall[0], dy = innerBall[1] - outerBall[1], length = Math.sqrt(dx * dx + dy * dy);
  const middle = (axis: number): number => 0.5 * (innerBall[axis] + outerBall[axis]);
  return { centre: [middle(0), middle(1), middle(2)], u: [dx / length, dy / length, 0], v: [0, 0, 1] };
}

/** Through the heel's lower rear point, rising forward by so many degrees; its centre half way over to the instep. */
function diagonalPlane(body: Body, { heel, heelRadius }: LaidFoot, degrees: number, lengthMm: number): TapePlane {
  const s = Math.SQRT1_2, tip = onto(body, [heel[0] - heelRadius * s, 0, heel[2] - heelRadius * s], [-s, 0, -s]);
  const c = cos(degrees * Math.PI / 180), r = sin(degrees * Math.PI / 180), over = 0.45 * lengthMm;
  const far = onto(body, [tip[0] + over * c, 0, tip[2] + over * r], [c, 0, r]);
  return { centre: [0.5 * (tip[0] + far[0]), 0, 0.5 * (tip[2] + far[2])], u: [c, 0, r], v: [0, 1, 0] };
}

/** From near the surface onto it, along a unit vector that points outward. */
function onto(body: Body, near: Point, way: Point): Point {
  const ring = new Float64Array(1), plane = { centre: [near[0] - way[0] * FAR_MM, near[1] - way[1] * FAR_MM, near[2] - way[2] * FAR_MM] as const, u: way, v: way };
  ring[0] = FAR_MM;
  traceRadiiInto(ring, body, plane, FAR_MM);
  return [plane.centre[0] + ring[0] * way[0], plane.centre[1] + ring[0] * way[1], plane.centre[2] + ring[0] * way[2]];
}

const FAR_MM = 1000;
