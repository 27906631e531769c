import { describe, expect, it } from 'vitest';
import { Box3, type BufferGeometry, type Mesh, Vector3 } from 'three';
import { GLTFLoader } from 'three/examples/jsm/loaders/GLTFLoader.js';
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { PoseName } from '../../src/shape/pose.ts';
import type { Fabric } from '../../src/fabric/fabric.ts';
import { surfaceOf } from '../../src/sheet/cloth-surface.ts';
import { writeGlb } from '../../src/sheet/write-glb.ts';
import { writeStl } from '../../src/sheet/write-stl.ts';

const SOCK = { name: 'Söckchen', gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, foot: { ballGirthMm: 240, lengthMm: 240 }, leg: { lengthMm: 60 }, heel: { turnDownWidth: 8 } } as const;

type Point = readonly [number, number, number];

/**
 * What a surface encloses, closed at its cuff by a fan to the cuff's middle, mm3: the divergence
 * theorem, a sixth of the sum of a . (b x c) over triangles seen counter-clockwise from outside.
 */
function enclosed(triangles: readonly (readonly [Point, Point, Point])[], cuff: readonly Point[]): number {
  const middle = [0, 1, 2].map((d) => cuff.reduce((sum, point) => sum + point[d], 0) / cuff.length) as unknown as Point;
  // The cuff is walked with the cloth on the left: seen from above, the lid turns the other way.
  const lid = cuff.map((point, i): readonly [Point, Point, Point] => [cuff[(i + 1) % cuff.length], point, middle]);
  return [...triangles, ...lid].reduce((sum, [a, b, c]) => sum
    + a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]), 0) / 6;
}

const cuffOf = ({ boundaryVertices }: Fabric, p: Float64Array): Point[] => [...boundaryVertices].map((v) => [p[3 * v], p[3 * v + 1], p[3 * v + 2]]);

/** The same from the pose alone, without triangles: cells fanned from their middles. */
function enclosedByPose(fabric: Fabric, p: Float64Array): number {
  const { cellStart, cellVertices } = fabric, at = (v: number): Point => [p[3 * v], p[3 * v + 1], p[3 * v + 2]];
  const triangles: (readonly [Point, Point, Point])[] = [];
  for (let cell = 0; cell + 1 < cellStart.length; cell++) {
    const corners = [...cellVertices.subarray(cellStart[cell], cellStart[cell + 1])].map(at);
    const middle = [0, 1, 2].map((d) => corners.reduce((sum, corner) => sum + corner[d], 0) / corners.length) as unknown as Point;
    corners.forEach((corner, i) => { triangles.push([middle, corner, corners[(i + 1) % corners.length]]); });
  }
  return enclosed(triangles, cuffOf(fabric, p));
}

function trianglesOf(geometry: BufferGeometry, toMm: (point: Vector3) => Point): (readonly [Point, Point, Point])[] {
  const position = geometry.getAttribute('position'), index = geometry.getIndex();
  const corners = Array.from({ length: index?.count ?? position.count }, (_, i) => toMm(new Vector3().fromBufferAttribute(position, index?.getX(i) ?? i)));
  return Array.from({ length: corners.length / 3 }, (_, i) => [corners[3 * i], corners[3 * i + 1], corners[3 * i + 2]] as const);
}

/** Each side of a triangle that another one has too must be walked the other way there: one winding throughout. */
function sidesWalkedTwiceTheSameWay(triangles: Uint32Array): number {
  const walked = new Set<string>();
  let twice = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    for (let i = 0; i < 3; i++) {
      const side = `${triangles[t + i]}>${triangles[t + (i + 1) % 3]}`;
      if (walked.has(side)) twice++;
      walked.add(side);
    }
  }
  return twice;
}

const extentOf = (points: Iterable<Point>): Box3 => {
  const box = new Box3();
  for (const point of points) box.expandByPoint(new Vector3(...point));
  return box;
};

const { sock } = knitSock(SOCK);
const fabric = sock!.fabric;

describe.each(['tube', 'flat', 'worn'] as const)('the surface of a sock, %s', (pose: PoseName) => {
  const { positions } = poseSock(sock!, pose).pose, surface = surfaceOf(fabric, positions);
  const pointsOfPose = Array.from({ length: fabric.vertexCount }, (_, v): Point => [positions[3 * v], positions[3 * v + 1], positions[3 * v + 2]]);
  const volume = enclosedByPose(fabric, positions), box = extentOf(pointsOfPose);

  it('has one winding, outwards', () => {
    expect(sidesWalkedTwiceTheSameWay(surface.triangles)).toBe(0);
    // A disk of quads and few triangles: V - E + F = 1 gives nearly two triangles a vertex.
    expect(surface.triangles.length / 3 / fabric.vertexCount).toBeGreaterThan(1.9);
    if (pose !== 'flat') expect(volume).toBeGreaterThan(100_000);
  });

  const close = (found: number, wanted: number): void => { expect(Math.abs(found - wanted)).toBeLessThan(Math.max(0.01 * Math.abs(wanted), 2000)); };

  it('as STL, read by three\'s loader, has its triangles, extents and volume in millimetres', () => {
    const bytes = writeStl(surface, 'Söckchen'), geometry = new STLLoader().parse(bytes.buffer);
    const triangles = trianglesOf(geometry, ({ x, y, z }) => [x, y, z]);
    expect(triangles.length).toBe(surface.triangles.length / 3);
    const found = extentOf(triangles.flat());
    expect(found.min.distanceTo(box.min)).toBeLessThan(1e-3);
    expect(found.max.distanceTo(box.max)).toBeLessThan(1e-3);
    close(enclosed(triangles, cuffOf(fabric, positions)), volume);
    // Three turns to the normal that a face has itself: ours must be that one.
    const normal = geometry.getAttribute('normal');
    triangles.forEach(([a, b, c], i) => {
      const own = new Vector3(...b).sub(new Vector3(...a)).cross(new Vector3(...c).sub(new Vector3(...a)));
      if (own.length() > 0.05) expect(own.normalize().dot(new Vector3().fromBufferAttribute(normal, 3 * i))).toBeGreaterThan(0.99);
    });
    expect([...bytes]).toEqual([...writeStl(surface, 'Söckchen')]);
    expect(new TextDecoder().decode(bytes.subarray(0, 80))).toMatch(/^mm S/);
  });

  it('as GLB, read by three\'s loader, has its triangles, extents and volume in metres, upright, and its colours', async () => {
    const colours = new Float32Array(3 * fabric.vertexCount).map((_, i) => ((i % 3) + 1) / 4);
    const bytes = writeGlb({ ...surface, colours }, 'Söckchen "quoted"');
    const { scene } = await new GLTFLoader().parseAsync(bytes.buffer, '');
    const mesh = scene.children[0] as Mesh;
    // Metres, y up: back to the pose's own axes.
    const triangles = trianglesOf(mesh.geometry, ({ x, y, z }) => [1000 * x, -1000 * z, 1000 * y]);
    expect(triangles.length).toBe(surface.triangles.length / 3);
    const found = extentOf(triangles.flat());
    expect(found.min.distanceTo(box.min)).toBeLessThan(1e-3);
    expect(found.max.distanceTo(box.max)).toBeLessThan(1e-3);
    close(enclosed(triangles, cuffOf(fabric, positions)), volume);
    expect(mesh.userData['name'] ?? mesh.name).toContain('ckchen');
    const colour = mesh.geometry.getAttribute('color');
    expect([colour.getX(5), colour.getY(5), colour.getZ(5)]).toEqual([0.25, 0.5, 0.75]);
    expect((mesh.material as { side: number }).side).toBe(2);
    const normal = mesh.geometry.getAttribute('normal');
    for (let v = 0; v < normal.count; v += 17) expect(new Vector3().fromBufferAttribute(normal, v).length()).toBeCloseTo(1, 5);
  });
});
