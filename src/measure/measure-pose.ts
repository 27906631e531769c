import type { Fabric, FabricMarks, MarkPath } from '../fabric/fabric.ts';
import { SECTION } from '../machine/codes.ts';
import { findAxis, measureFootGirth } from './measure-foot.ts';
import { measureHeelTip } from './measure-heel-tip.ts';
import type { MeasureLines, Measures } from './measures.ts';
import { lineLength, placePath, pointDistance, simplifyLine } from './polyline.ts';

/** Points of drawn lines may be left out where that moves the line by no more than this; chosen by eye. */
const DRAWN_WITHIN_MM = 0.15;

/** One measure: its value, and the line that shows it. */
interface Taken { readonly value: number; readonly line: Float64Array }

export interface PoseMeasures { readonly measures: Measures; readonly lines: MeasureLines }

/**
 * Measures of a posed sock, on the shape as it lies, each with the line that it was taken along
 * (three entries a point, mm). A measure whose parts the fabric does not have is null and has no
 * line; a fabric without marks has none at all.
 * @param positions three entries a vertex, mm
 */
export function measurePose(fabric: Fabric, positions: Float64Array): PoseMeasures {
  const { marks } = fabric;
  const taken = marks === null ? {} : takeMeasures(fabric, marks, positions);
  const value = (key: keyof Measures): number | null => taken[key]?.value ?? null;
  const lines: Partial<Record<keyof Measures, Float64Array>> = {};
  for (const key of MEASURE_NAMES) {
    const line = taken[key]?.line;
    if (line !== undefined && line.length >= 6) lines[key] = simplifyLine(line, DRAWN_WITHIN_MM);
  }
  return {
    measures: {
      footLengthMm: value('footLengthMm'),
      heelDepthMm: value('heelDepthMm'),
      heelDiagonalMm: value('heelDiagonalMm'),
      heelTipGirthMm: value('heelTipGirthMm'),
      throatToHeelMm: value('throatToHeelMm'),
      footGirthMm: value('footGirthMm'),
      toeLengthMm: value('toeLengthMm'),
      legLengthMm: value('legLengthMm'),
      toeTipWidthMm: value('toeTipWidthMm'),
      legFootAngleDeg: value('legFootAngleDeg'),
    },
    lines,
  };
}

const MEASURE_NAMES: readonly (keyof Measures)[] = [
  'footLengthMm', 'heelDepthMm', 'heelDiagonalMm', 'heelTipGirthMm', 'throatToHeelMm',
  'footGirthMm', 'toeLengthMm', 'legLengthMm', 'toeTipWidthMm', 'legFootAngleDeg',
];

function takeMeasures(fabric: Fabric, marks: FabricMarks, positions: Float64Array): { readonly [K in keyof Measures]?: Taken | null } {
  const heelTip = measureHeelTip(fabric, marks, positions);
  const girth = measureFootGirth(fabric, marks.footRounds, positions);
  return {
    footLengthMm: takeFootLength(fabric, marks, positions),
    heelDepthMm: takeHeelDepth(marks, positions),
    heelDiagonalMm: takeAlong(marks.heelDiagonal, positions),
    heelTipGirthMm: heelTip && { value: heelTip.lengthMm, line: heelTip.points },
    throatToHeelMm: takeThroat(marks, positions),
    footGirthMm: girth && { value: girth.girthMm, line: girth.line },
    toeLengthMm: takeAlong(marks.toeLength, positions),
    legLengthMm: takeLegLength(fabric, marks, positions),
    toeTipWidthMm: takeAcross(marks.toeTip, positions),
    legFootAngleDeg: takeAngle(marks, positions),
  };
}

/** Arc length of a whole marked line. */
function takeAlong(path: MarkPath, positions: Float64Array): Taken | null {
  if (path.a.length < 2) return null;
  const line = placePath(path, positions);
  return { value: lineLength(line), line };
}

/** Arc length across a row from edge to edge: a row marked by its loops' middles has half a stitch more at each end. */
function takeAcross(path: MarkPath, positions: Float64Array): Taken | null {
  const along = takeAlong(path, positions);
  if (along === null || along.line.length < 9) return along;
  const last = path.a.length - 1;
  const count = along.line.length / 3;
  let { value } = along;
  if (path.a[0] === path.b[0]) value += pointDistance(along.line, 0, along.line, 1) / 2;
  if (path.a[last] === path.b[last]) value += pointDistance(along.line, count - 2, along.line, count - 1) / 2;
  return { value, line: along.line };
}

function takeThroat(marks: FabricMarks, positions: Float64Array): Taken | null {
  if (marks.instepAtHeel.a.length === 0 || marks.baseMiddle.a.length === 0) return null;
  const line = Float64Array.from([
    ...placePath(marks.instepAtHeel, positions).subarray(0, 3), ...placePath(marks.baseMiddle, positions).subarray(0, 3),
  ]);
  return { value: lineLength(line), line };
}

/** Along the foot's axis, from the rearmost loop of the heel to the foremost of foot and toe. */
function takeFootLength(fabric: Fabric, marks: FabricMarks, positions: Float64Array): Taken | null {
  const axis = findAxis(marks.footRounds, positions);
  if (axis === null) return null;
  let [rear, rearAt, fore] = [Infinity, -1, -Infinity];
  for (let v = 0; v < fabric.vertexCount; v++) {
    const along = axis[0] * positions[3 * v] + axis[1] * positions[3 * v + 1] + axis[2] * positions[3 * v + 2];
    const section = fabric.vertexSection[v];
    if (section >= SECTION['heel-in'] && section <= SECTION['heel-out'] && along < rear) {
      rear = along;
      rearAt = v;
    }
    if (section >= SECTION.foot && along > fore) fore = along;
  }
  if (rearAt === -1 || fore <= rear) return null;
  const from = positions.subarray(3 * rearAt, 3 * rearAt + 3);
  const to = axis.map((value, d) => from[d] + (fore - rear) * value);
  return { value: fore - rear, line: Float64Array.from([...from, ...to]) };
}

/** Along the centre of the heel bed, from the last full row before the heel to the middle of the short base. */
function takeHeelDepth(marks: FabricMarks, positions: Float64Array): Taken | null {
  const { centreBack, heelFirstRow, baseMiddle } = marks;
  if (baseMiddle.a.length === 0) return null;
  const firstRow = new Set([...heelFirstRow.a, ...heelFirstRow.b]);
  const ends = new Set([baseMiddle.a[0], baseMiddle.b[0]]);
  const start = centreBack.a.findIndex((a, i) => firstRow.has(a) && firstRow.has(centreBack.b[i]));
  const end = centreBack.a.findIndex((a, i) => i > start && ends.has(a) && ends.has(centreBack.b[i]));
  if (start === -1 || end === -1) return null;
  const line = placePath(centreBack, positions).subarray(3 * start, 3 * end + 3);
  return { value: lineLength(line), line };
}

/** Along the sides, from the cast-on to the leg's last row: the mean of left and right; the left is shown. */
function takeLegLength(fabric: Fabric, marks: FabricMarks, positions: Float64Array): Taken | null {
  const isLeg = (v: number): boolean => fabric.vertexSection[v] <= SECTION.leg;
  const sides = [marks.sideLeft, marks.sideRight].map((side) => {
    // Before a wide heel the line turns along the last row, from loop to loop.
    const end = side.a.findIndex((a, i) => a === side.b[i] || !isLeg(a) || !isLeg(side.b[i]));
    return placePath(side, positions).subarray(0, 3 * (end === -1 ? side.a.length : end));
  });
  if (sides.some((side) => side.length === 0)) return null;
  return { value: (lineLength(sides[0]) + lineLength(sides[1])) / 2, line: sides[0] };
}

/** Between the directions from the heel up the leg and down the foot, degrees: 180 when in line. */
function takeAngle(marks: FabricMarks, positions: Float64Array): Taken | null {
  const foot = findAxis(marks.footRounds, positions);
  const leg = findAxis(marks.legRounds, positions);
  if (foot === null || leg === null || marks.baseMiddle.a.length === 0) return null;
  const cosine = -(foot[0] * leg[0] + foot[1] * leg[1] + foot[2] * leg[2]);
  const cross = Math.hypot(foot[1] * leg[2] - foot[2] * leg[1], foot[2] * leg[0] - foot[0] * leg[2], foot[0] * leg[1] - foot[1] * leg[0]);
  return { value: (Math.atan2(cross, cosine) * 180) / Math.PI, line: drawAngle(marks, positions, leg, foot) };
}

/** Two arms from the middle between instep and heel, up the leg and along the foot, each as long as those are apart. */
function drawAngle(marks: FabricMarks, positions: Float64Array, leg: Float64Array, foot: Float64Array): Float64Array {
  const instep = placePath(marks.instepAtHeel, positions);
  const base = placePath(marks.baseMiddle, positions);
  if (instep.length < 3) return new Float64Array(0);
  const arm = pointDistance(instep, 0, base, 0);
  const centre = Float64Array.from([0, 1, 2], (d) => (instep[d] + base[d]) / 2);
  return Float64Array.from([
    ...centre.map((value, d) => value - arm * leg[d]), ...centre, ...centre.map((value, d) => value + arm * foot[d]),
  ]);
}
