import { describe, expect, test } from 'vitest';
import { mapDifference } from '../../src/choose/map-difference.ts';
import type { ShapedSock } from '../../src/choose/map-difference.ts';
import { PART, partOf } from '../../src/choose/sock-parts.ts';
import type { Fabric } from '../../src/fabric/fabric.ts';
import { measurePose } from '../../src/measure/measure-pose.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { makeStartShape } from '../../src/shape/start-shape.ts';

const PLAIN: SockFile = { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 48, legPasses: 20, footPasses: 40 }, leg: { kind: 'tube' } };

function clothOf(file: SockFile): Fabric {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  return sock.fabric;
}

/** Every stitch on a cylinder: its wale at its turn, its round at its height; the heel's own rows take no height. */
function onCylinder(fabric: Fabric, girthMm: number, rowMm: number): ShapedSock {
  const radius = girthMm / (2 * Math.PI), positions = new Float64Array(3 * fabric.vertexCount);
  for (let v = 0; v < fabric.vertexCount; v++) {
    const angle = 2 * Math.PI * fabric.vertexAround[v];
    positions.set([radius * Math.cos(angle), radius * Math.sin(angle), -rowMm * fabric.vertexRow[v]], 3 * v);
  }
  return { fabric, positions };
}

const shaped = (file: SockFile, girthMm = 160, rowMm = 2.4): ShapedSock => onCylinder(clothOf(file), girthMm, rowMm);
const verticesOf = ({ fabric }: ShapedSock, part: number): number[] => Array.from({ length: fabric.vertexCount }, (_, v) => v).filter((v) => partOf(fabric.vertexSection[v]) === part);
const spread = (values: Iterable<number>): { least: number; most: number } => {
  const list = [...values];
  return { least: Math.min(...list), most: Math.max(...list) };
};

const middleOf = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1];

describe('the map of differences', () => {
  test.each<[string, SockFile]>([
    ['plain', PLAIN], ['short-row toe', { ...PLAIN, toe: { kind: 'short-row' } }],
    ['flat rib, plateau', { ...PLAIN, leg: { kind: 'flat-rib' }, heel: { plateauPasses: 4 } }],
  ])('of a sock and itself is nothing: %s', (_name, file) => {
    const sock = shaped(file), { vertexWiderMm, vertexLongerMm } = mapDifference(sock, sock);
    expect(vertexWiderMm).toHaveLength(sock.fabric.vertexCount);
    expect(spread(vertexWiderMm)).toEqual({ least: 0, most: 0 });
    expect(spread(vertexLongerMm)).toEqual({ least: 0, most: 0 });
  });

  /** Geometry: all lengths 5 % larger are 5 % of the girth, and of a part's length, everywhere. Stitches stand on a polygon of 48 corners: n sin(pi / n) / pi of the circle; where the helix steps up a round, a stitch's way is longer. */
  test('of a gauge 5 % looser is 5 % of the girth', () => {
    const fabric = clothOf(PLAIN), sock = onCylinder(fabric, 160, 2.4), nothing: ShapedSock = { fabric, positions: new Float64Array(3 * fabric.vertexCount) };
    const looser = mapDifference(sock, onCylinder(fabric, 168, 2.52)), whole = mapDifference(nothing, sock);
    for (let v = 0; v < fabric.vertexCount; v++) {
      expect(looser.vertexWiderMm[v]).toBeCloseTo(0.05 * whole.vertexWiderMm[v], 9);
      expect(looser.vertexLongerMm[v]).toBeCloseTo(0.05 * whole.vertexLongerMm[v], 9);
    }
    const leg = verticesOf(sock, PART.leg).map((v) => whole.vertexWiderMm[v]);
    expect(middleOf(leg)).toBeCloseTo(160 * 48 * Math.sin(Math.PI / 48) / Math.PI, 2);
    expect(spread(leg).most).toBeLessThan(1.05 * 160);
    // Twenty rounds of foot.
    for (const v of verticesOf(sock, PART.foot)) expect(looser.vertexLongerMm[v]).toBeCloseTo(20 * 0.12, 9);
  });

  test('of ten more rounds of foot is their length over all the foot, and nothing elsewhere', () => {
    const [a, b] = [shaped(PLAIN), shaped({ ...PLAIN, counts: { ...PLAIN.counts, footPasses: 60 } })];
    const { vertexWiderMm, vertexLongerMm } = mapDifference(a, b);
    for (const v of verticesOf(b, PART.foot)) expect(vertexLongerMm[v]).toBeCloseTo(10 * 2.4, 9);
    for (const part of [PART.leg, PART.ankle, PART.heel, PART.toe]) for (const v of verticesOf(b, part)) expect(vertexLongerMm[v]).toBeCloseTo(0, 9);
    for (const part of [PART.leg, PART.ankle, PART.heel]) for (const v of verticesOf(b, part)) expect(vertexWiderMm[v]).toBeCloseTo(0, 6);
    // And seen from the other sock it is shorter by as much.
    const back = mapDifference(b, a).vertexLongerMm;
    for (const v of verticesOf(a, PART.foot)) expect(back[v]).toBeCloseTo(-24, 9);
  });

  test('of eight more stitches is their width round leg and foot', () => {
    const [a, b] = [shaped(PLAIN, 160), shaped({ ...PLAIN, counts: { ...PLAIN.counts, stitches: 56 }, heel: { turnDownWidth: 8 } }, 160 * 56 / 48)];
    const { vertexWiderMm } = mapDifference(a, b);
    const leg = verticesOf(b, PART.leg).map((v) => vertexWiderMm[v]), { least, most } = spread(leg);
    expect(Math.abs(middleOf(leg) - 160 / 6)).toBeLessThan(0.1);
    expect(least).toBeGreaterThan(160 / 6 - 2);
    expect(most).toBeLessThan(160 / 6 + 2);
  });
});

describe('toes of two kinds', () => {
  const [decreased, turned] = [shaped(PLAIN), shaped({ ...PLAIN, toe: { kind: 'short-row', tipStitches: 8 } })];

  test.each([['decreased to turned', decreased, turned], ['turned to decreased', turned, decreased]] as const)('%s: finite, and as different in the toe as the toes are long', (_name, a, b) => {
    const { vertexWiderMm, vertexLongerMm } = mapDifference(a, b);
    for (const value of [...vertexWiderMm, ...vertexLongerMm]) expect(Number.isFinite(value)).toBe(true);
    for (const part of [PART.leg, PART.heel, PART.foot]) for (const v of verticesOf(b, part)) expect(vertexLongerMm[v]).toBeCloseTo(0, 9);
    // Neither is longer than a whole toe, nor wider than the sock.
    for (const v of verticesOf(b, PART.toe)) {
      expect(Math.abs(vertexLongerMm[v])).toBeLessThan(20 * 2.4);
      expect(Math.abs(vertexWiderMm[v])).toBeLessThan(160);
    }
  });

  const layFlat = (kind: 'decreased' | 'short-row'): ShapedSock => {
    const { sock } = knitSock({ ...PLAIN, toe: { kind, tipStitches: 8 } });
    return { fabric: sock!.fabric, positions: poseSock(sock!, 'flat').pose.positions };
  };
  const laidFlat = { decreased: layFlat('decreased'), 'short-row': layFlat('short-row') };

  /** Both toes end on 8 stitches a bed: laid flat, both have 16 round their tips, and so much of the cloth's own width. */
  test.each([['decreased', 'short-row'], ['short-row', 'decreased']] as const)('%s and %s of equal tips are about equally wide there', (...kinds) => {
    const [a, b] = kinds.map((kind) => laidFlat[kind]);
    const { vertexWiderMm } = mapDifference(a, b), toe = verticesOf(b, PART.toe), last = spread(toe.map((v) => b.fabric.vertexRow[v])).most;
    const isTip = (v: number): boolean => (kinds[1] === 'decreased' ? b.fabric.vertexRow[v] > last - 3 : Math.abs(b.fabric.vertexFan[v] - 0.5) < 0.05);
    const tip = toe.filter(isTip), tipMm = 16 / 0.3;
    expect(tip.length).toBeGreaterThan(10);
    expect(Math.abs(tip.reduce((sum, v) => sum + vertexWiderMm[v], 0) / tip.length)).toBeLessThan(0.3 * tipMm);
  });
});

/** Against the measures of the shapes themselves, which close a line round each round of the foot and walk the leg's side. */
describe('on real shapes', () => {
  test('a wider sock of a start shape is as much wider as its girths say', () => {
    const shape = (stitches: number): ShapedSock => {
      const fabric = clothOf({ ...PLAIN, counts: { ...PLAIN.counts, stitches } });
      return { fabric, positions: makeStartShape(fabric, 'round') };
    };
    const [a, b] = [shape(48), shape(60)], { vertexWiderMm } = mapDifference(a, b);
    const girth = ({ fabric, positions }: ShapedSock): number => measurePose(fabric, positions).measures.footGirthMm!;
    const foot = verticesOf(b, PART.foot), rows = spread(foot.map((v) => b.fabric.vertexRow[v])), third = (rows.most - rows.least) / 3;
    const middle = foot.filter((v) => b.fabric.vertexRow[v] >= rows.least + third && b.fabric.vertexRow[v] <= rows.most - third);
    const mean = middle.reduce((sum, v) => sum + vertexWiderMm[v], 0) / middle.length;
    expect(mean / (girth(b) - girth(a))).toBeGreaterThan(0.95);
    expect(mean / (girth(b) - girth(a))).toBeLessThan(1.05);
  });

  test('a relaxed sock with a deeper heel is longer in the heel\'s middle by as much as its centre line is', () => {
    const posed = (turnDownWidth: number) => {
      const { sock } = knitSock({ ...PLAIN, heel: { turnDownWidth } });
      return { fabric: sock!.fabric, ...poseSock(sock!, 'flat') };
    };
    const [a, b] = [posed(10), posed(4)];
    const { vertexLongerMm } = mapDifference({ fabric: a.fabric, positions: a.pose.positions }, { fabric: b.fabric, positions: b.pose.positions });
    const middle = Array.from({ length: b.fabric.vertexCount }, (_, v) => v)
      .filter((v) => partOf(b.fabric.vertexSection[v]) === PART.heel && Math.min(b.fabric.vertexAround[v], 1 - b.fabric.vertexAround[v]) < 0.02);
    const mean = middle.reduce((sum, v) => sum + vertexLongerMm[v], 0) / middle.length;
    // Heel depth is half of the way through the heel.
    const deeper = 2 * (b.measures.heelDepthMm! - a.measures.heelDepthMm!);
    expect(mean).toBeGreaterThan(0.7 * deeper);
    expect(mean).toBeLessThan(1.3 * deeper);
  });
});
