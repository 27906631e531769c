import { describe, expect, it } from 'vitest';
import { Box3, type BufferGeometry, Mesh, type MeshStandardMaterial, Vector3 } from 'three';
import { GLTFLoader } from 'three/examples/jsm/loaders/GLTFLoader.js';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { LARGE_GLB_BYTES, MOST_GLB_BYTES, writeYarnGlb, yarnGlbBytes, type YarnGlbOptions } from '../../src/sheet/write-yarn-glb.ts';
import { layTubes, listRuns, ringTriangles, TUBE_DETAILS, type TubeDetail } from '../../src/sheet/yarn-tubes.ts';
import { layYarn } from '../../src/yarn/lay-yarn.ts';
import { threadYarn } from '../../src/yarn/thread-yarn.ts';
import { PART, PIECE_POINTS, POINT_STRIDE, type YarnLay, type YarnThread } from '../../src/yarn/yarn-lay.ts';
import { yarnDiameterMm } from '../../src/yarn/yarn-size.ts';

type Point = readonly [number, number, number];
const DETAILS = Object.keys(TUBE_DETAILS) as TubeDetail[], DIAMETER = 0.8;

/** One length of yarn through control points that `at` gives. */
function lineOf(pieces: number, at: (point: number) => Point): YarnLay {
  const thread: YarnThread = {
    pieceCount: pieces, part: new Uint8Array(pieces).fill(PART.loop), loop: new Int32Array(pieces), mate: new Int32Array(pieces).fill(-1),
    yarn: new Uint8Array(pieces), lengthStart: Int32Array.of(0, pieces), loopPiece: new Int32Array(0),
  };
  const points = new Float32Array(POINT_STRIDE * PIECE_POINTS * pieces), ups = new Int8Array(4 * PIECE_POINTS * pieces);
  for (let i = 0; i < PIECE_POINTS * pieces; i++) {
    points.set(at(i), POINT_STRIDE * i);
    ups.set([0, 0, 127, 0], 4 * i);
  }
  return { thread, points, ups, diameterMm: Float64Array.of(DIAMETER) };
}

/** The divergence theorem: a sixth of the sum of a . (b x c) over triangles seen counter-clockwise from outside. */
function enclosed(positions: Float32Array, triangles: Uint16Array): number {
  const at = (i: number): Vector3 => new Vector3(positions[3 * i], positions[3 * i + 1], positions[3 * i + 2]);
  let sum = 0;
  for (let t = 0; t < triangles.length; t += 3) sum += at(triangles[t]).dot(at(triangles[t + 1]).cross(at(triangles[t + 2])));
  return sum / 6;
}

const polygonArea = (sides: number, radius: number): number => 0.5 * sides * radius ** 2 * Math.sin((2 * Math.PI) / sides);

/** Closed form: a frustum between the yarn's end and half way up a half sphere, and a pyramid over that. */
function roundEnd(sides: number, radius: number): number {
  const half = Math.SQRT1_2, base = polygonArea(sides, radius), top = polygonArea(sides, radius * half);
  return (radius * half * (base + top + Math.sqrt(base * top)) + radius * (1 - half) * top) / 3;
}

describe.each(DETAILS)('tubes, %s', (detail) => {
  const { sides, segments } = TUBE_DETAILS[detail], area = polygonArea(sides, DIAMETER / 2);

  it('of a straight yarn enclose a prism with two round ends', () => {
    // Linear precision: the line runs from the second control point (the mean of three) to the last, which stands three times.
    const lay = lineOf(3, (i) => [0, 0.3 * i, 0]), [tube, ...more] = [...layTubes(lay, detail)], length = 0.3 * (3 * PIECE_POINTS - 2);
    expect(more).toEqual([]);
    expect(tube.run.rings).toBe(3 * segments + 5);
    expect(enclosed(tube.positions, ringTriangles(tube.run.rings, sides))).toBeCloseTo(area * length + 2 * roundEnd(sides, DIAMETER / 2), 4);
    for (let i = 0; i < tube.normals.length; i += 3) expect(Math.hypot(tube.normals[i], tube.normals[i + 1], tube.normals[i + 2])).toBeCloseTo(1, 5);
  });

  /**
   * Pappus: a tube round any curve encloses its cross-section times the curve's length. And Bishop R. L., Amer. Math. Monthly 82 (1975) 246-251:
   * a frame that does not turn about its curve turns against the curve's own by the integral of the torsion: on a helix of radius r and pitch
   * 2 pi c by 2 pi c / hypot(r, c) a turn.
   */
  it.each([[4, 0], [3, 1.2], [2, 2]])('of a helix of radius %d and reduced pitch %d enclose what they should and do not twist', (r, c) => {
    const turnPoints = 24, a = (2 * Math.PI) / turnPoints, control = r / ((2 + Math.cos(a)) / 3), pieces = 6;
    const lay = lineOf(pieces, (i) => [control * Math.cos(a * i), control * Math.sin(a * i), c * a * i]);
    const [tube] = [...layTubes(lay, detail)], length = (PIECE_POINTS * pieces - 2) * a * Math.hypot(r, c);
    expect(Math.abs(enclosed(tube.positions, ringTriangles(tube.run.rings, sides)) / (area * length + 2 * roundEnd(sides, DIAMETER / 2)) - 1)).toBeLessThan(0.03);
    // The first corner's normal against the inward normal of the helix, and square to both it and the yarn; rings of the middle, two turns apart.
    const turnRings = (turnPoints * segments) / PIECE_POINTS, angleAt = (ring: number): number => {
      const at = 3 * sides * (ring + 2), turn = a * (1 + (ring * PIECE_POINTS) / segments), n = new Vector3(tube.normals[at], tube.normals[at + 1], tube.normals[at + 2]);
      const inward = new Vector3(-Math.cos(turn), -Math.sin(turn), 0), along = new Vector3(-r * Math.sin(turn), r * Math.cos(turn), c).normalize();
      expect(Math.abs(n.dot(along))).toBeLessThan(0.02);
      return Math.atan2(n.dot(along.clone().cross(inward)), n.dot(inward));
    };
    const turned = angleAt(turnRings + segments / 4) - angleAt(segments / 4), wanted = (-2 * Math.PI * c) / Math.hypot(r, c);
    const off = (turned - wanted) / (2 * Math.PI);
    expect(Math.abs(off - Math.round(off))).toBeLessThan(0.01);
  });

  it('turn no corner away from its next where a yarn\'s ends fall together in one point', () => {
    const last = 2 * PIECE_POINTS - 1, lay = lineOf(2, (i) => [0, 0.3 * Math.min(Math.max(i, 2), last - 2), 0]), [tube] = [...layTubes(lay, detail)];
    expect([...tube.positions, ...tube.normals].every(Number.isFinite)).toBe(true);
    for (let i = 3 * sides * 3; i < tube.normals.length - 3 * sides * 2; i += 3) expect(tube.normals[i] * tube.normals[i - 3 * sides] + tube.normals[i + 2] * tube.normals[i + 2 - 3 * sides]).toBeGreaterThan(0.999);
  });
});

const FILE: SockFile = {
  name: 'Söckchen "quoted"', gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, foot: { ballGirthMm: 240, lengthMm: 240 }, leg: { lengthMm: 60 },
  yarns: [{ name: 'blue', colour: '#1848e0', stripePasses: 4 }, { name: 'red', colour: '#e01818', stripePasses: 4 }, { name: 'grün', colour: '#18a018', from: 'toe' }],
};
const sock = knitSock(FILE).sock!, { positions } = poseSock(sock, 'tube').pose;
const lay = layYarn({ fabric: sock.fabric, grid: sock.grid, thread: threadYarn(sock.grid), diameterMm: Float64Array.from(sock.plan.yarns, ({ metresPer100g }) => yarnDiameterMm(metresPer100g)) }, positions);
const optionsOf = (detail: TubeDetail): YarnGlbOptions => ({
  detail, name: FILE.name!, yarns: sock.plan.yarns.map(({ name }, i) => ({ name, colour: [i === 1 ? 0.75 : 0.125, i === 2 ? 0.5 : 0.0625, i === 0 ? 0.75 : 0.25] })),
});

function fileOf(detail: TubeDetail): Uint8Array<ArrayBuffer> {
  const parts: Uint8Array[] = [], steps = writeYarnGlb(lay, optionsOf(detail));
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done === true) { parts.unshift(step.value); break; }
    parts.push(step.value);
  }
  return Uint8Array.from(Buffer.concat(parts));
}

/** Sides of triangles between places (to 0.1 micrometres), walked one way less walked the other: all zero for a closed surface. */
function openSides(geometry: BufferGeometry): number {
  const position = geometry.getAttribute('position'), index = geometry.getIndex()!, balance = new Map<string, number>();
  const key = (i: number): string => [position.getX(i), position.getY(i), position.getZ(i)].map((m) => Math.round(m * 1e7)).join(',');
  const keys = Array.from({ length: position.count }, (_, i) => key(i));
  for (let t = 0; t < index.count; t += 3) {
    const corners = [0, 1, 2].map((d) => keys[index.getX(t + d)]);
    if (new Set(corners).size < 3) continue;
    corners.forEach((from, d) => {
      const to = corners[(d + 1) % 3], side = from < to ? `${from}|${to}` : `${to}|${from}`;
      balance.set(side, (balance.get(side) ?? 0) + (from < to ? 1 : -1));
    });
  }
  return balance.size === 0 ? Infinity : [...balance.values()].filter((count) => count !== 0).length;
}

describe('yarn as GLB', () => {
  it.each(DETAILS)('%s, read by three\'s loader, has every yarn in its colour, closed, upright, in metres, and the size told before', async (detail) => {
    const bytes = fileOf(detail), { sides } = TUBE_DETAILS[detail];
    expect(Math.abs(yarnGlbBytes(lay.thread, optionsOf(detail)) / bytes.length - 1)).toBeLessThan(0.001);
    const { scene } = await new GLTFLoader().parseAsync(bytes.buffer, ''), found = new Box3(), wanted = new Box3(), colours = new Set<string>();
    const meshes: Mesh<BufferGeometry, MeshStandardMaterial>[] = [];
    scene.traverse((node) => { if (node instanceof Mesh) meshes.push(node as Mesh<BufferGeometry, MeshStandardMaterial>); });
    const runs = listRuns(lay.thread, detail);
    expect(meshes).toHaveLength(runs.length);
    let points = 0;
    for (const { geometry, material } of meshes) {
      const position = geometry.getAttribute('position'), index = geometry.getIndex()!;
      points += position.count;
      for (let i = 0; i < position.count; i++) found.expandByPoint(new Vector3(1000 * position.getX(i), -1000 * position.getZ(i), 1000 * position.getY(i)));
      let most = 0;
      for (let i = 0; i < index.count; i++) most = Math.max(most, index.getX(i));
      expect(most).toBe(position.count - 1);
      const { r, g, b } = material.color;
      colours.add([r, g, b].map((x) => x.toFixed(4)).join(' '));
    }
    expect(points).toBe(runs.reduce((sum, { rings }) => sum + rings * sides, 0));
    expect([...colours].sort()).toEqual(optionsOf(detail).yarns.map(({ colour }) => colour.map((x) => x.toFixed(4)).join(' ')).sort());
    for (let i = 0; i < lay.points.length; i += POINT_STRIDE) wanted.expandByPoint(new Vector3(...lay.points.subarray(i, i + 3)));
    // A B-spline stays within the hull of its control points, the tube within half a thickness of that.
    expect(wanted.expandByScalar(0.5 * Math.max(...lay.diameterMm) + 1e-3).containsBox(found)).toBe(true);
    expect(found.getSize(new Vector3()).length() / wanted.getSize(new Vector3()).length()).toBeGreaterThan(0.97);
    expect(JSON.stringify(scene.toJSON().object)).toContain('Söckchen');
    // A run for each length: each is closed by itself.
    if (detail === 'coarse') expect(meshes.map(({ geometry }) => openSides(geometry)).filter((count) => count > 0)).toEqual([]);
    expect(Buffer.compare(bytes, fileOf(detail))).toBe(0);
  });

  it('of a yarn too long for one list of indices goes on where it stopped', () => {
    const long = lineOf(1000, (i) => [Math.cos(i / 5), Math.sin(i / 5), 0.01 * i]), tubes = [...layTubes(long, 'fine')], { sides } = TUBE_DETAILS.fine;
    expect(tubes.length).toBeGreaterThan(3);
    tubes.slice(1).forEach(({ positions: next }, i) => { expect([...next.subarray(0, 3 * sides)]).toEqual([...tubes[i].positions.subarray(-3 * sides)]); });
    expect(tubes.every(({ run }) => run.rings * sides <= 65535)).toBe(true);
  });

  it('is told to be large, or too large, before it is made', () => {
    const loops = (count: number): YarnThread => ({ ...lay.thread, pieceCount: count, lengthStart: Int32Array.of(0, count), yarn: new Uint8Array(count) });
    const sizes = DETAILS.map((detail) => yarnGlbBytes(loops(9500), optionsOf(detail)));
    // 24 bytes a point: 12 x 4, 24 x 6, 32 x 8 points a loop.
    [48, 144, 256].forEach((points, i) => { expect(Math.abs(sizes[i] / (9500 * points * 24) - 1)).toBeLessThan(0.08); });
    expect(sizes.every((bytes) => bytes < LARGE_GLB_BYTES)).toBe(true);
    expect(yarnGlbBytes(loops(20_000), optionsOf('fine'))).toBeGreaterThan(LARGE_GLB_BYTES);
    expect(yarnGlbBytes(loops(400_000), optionsOf('fine'))).toBeGreaterThan(MOST_GLB_BYTES);
  });
});
