import { createRandom } from '../../src/base/random.ts';
import { makeFootForm } from '../../src/foot/foot-form.ts';
import type { Body } from '../../src/foot/round-cones.ts';
import { sampleFootDistance } from '../../src/foot/sample-distance.ts';
import { printTable } from './table.ts';
import { createReferenceKernel, medianMs } from './timing.ts';

/** About as many as a sock has loops. */
const POINTS = 10_000;
/** Height over the ankle to which a usual sock reaches, mm. */
const SOCK_TOP_MM = 110;

/** Making a foot's form, sampling its distance, and asking it 10,000 times near the skin. */
export function benchFoot(): void {
  const referenceMs = medianMs(createReferenceKernel(), 9);
  const foot = makeFootForm({ lengthMm: 262, ballGirthMm: 246 }), topMm = foot.ankleMm + SOCK_TOP_MM;
  const sampled = sampleFootDistance(foot, { topMm }), points = layPoints(foot, topMm), normal = new Float64Array(3);
  let sum = 0;
  const ask = (body: Body) => (): void => {
    for (let i = 0; i < points.length; i += 3) sum += body.distanceAt(points[i], points[i + 1], points[i + 2], normal);
  };
  const rows: [string, number][] = [
    ['reference kernel (10 million steps)', referenceMs],
    ['form sized to its measures', medianMs(() => { makeFootForm({ lengthMm: 262, ballGirthMm: 246 }); }, 21, 5)],
    ['distance sampled', medianMs(() => { sampleFootDistance(foot, { topMm }); }, 15, 3)],
    ['10,000 distances, exact', medianMs(ask(foot), 31, 5)],
    ['10,000 distances, looked up', medianMs(ask(sampled), 31, 5)],
  ];
  if (!Number.isFinite(sum)) throw new Error('a distance is not finite');
  printTable(['foot', 'reference kernels', 'ms'], rows.map(([stage, ms]) => [stage, (ms / referenceMs).toFixed(3), ms.toFixed(2)]));
}

/** Points up to 3 mm off the skin, in the order of a walk along the foot, as a sock's loops are. */
function layPoints(foot: Body & { readonly measures: { readonly lengthMm: number } }, topMm: number): Float64Array {
  const random = createRandom(9), { lengthMm } = foot.measures, normal = new Float64Array(3), points: [number, number, number][] = [];
  while (points.length < POINTS) {
    const p: [number, number, number] = [lengthMm * (1.1 * random() - 0.05), lengthMm * (0.4 * random() - 0.2), -40 + (topMm + 40) * random()];
    const off = foot.distanceAt(p[0], p[1], p[2], normal) - 3 * random();
    if (Math.abs(off) > 30) continue;
    for (let axis = 0; axis < 3; axis++) p[axis] -= off * normal[axis];
    if (p[2] < topMm) points.push(p);
  }
  const cell = (p: readonly number[]): number => 1000 * Math.floor(p[2] / 4) + Math.floor(p[0] / 4);
  return Float64Array.from(points.sort((a, b) => cell(a) - cell(b)).flat());
}
