import type { BufferAttribute } from 'three';
import { describe, expect, it } from 'vitest';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { LoadedCloth } from '../../src/view/loaded-cloth.ts';
import { STRETCH_SCALE } from '../../src/view/colour-scale.ts';
import { findWraps } from '../../src/view/wrap-bars.ts';

const { sock } = knitSock({ gauge: { stitchesPer10cm: 20, rowsPer10cm: 28 }, counts: { stitches: 40, legPasses: 10, footPasses: 12 } });
const { fabric, grid } = sock!;

/** Percent. */
const STRIPES = Float64Array.from({ length: fabric.vertexCount }, (_, v) => (v % 2 === 0 ? 5 : -20));
/** The step at rest: the fifth of nine. */
const REST_STEP = 4;

describe('a cloth that shows its stretch', () => {
  const loaded = new LoadedCloth(fabric, grid);
  const attribute = (name: string): BufferAttribute => loaded.geometry.getAttribute(name) as BufferAttribute;
  const versions = (): Record<string, number> => Object.fromEntries(Object.keys(loaded.geometry.attributes).map((name) => [name, attribute(name).version]));

  it('takes one array anew and nothing else', () => {
    const before = versions(), geometry = loaded.geometry;
    loaded.map({ values: STRIPES, scale: STRETCH_SCALE });
    expect(versions()).toEqual({ ...before, a_onScale: before.a_onScale + 1 });
    expect(loaded.geometry).toBe(geometry);
  });

  it('has each loop\'s own place at all its corners, hem included, and at its wraps', () => {
    loaded.map({ values: STRIPES, scale: STRETCH_SCALE });
    const placeOf = (v: number): number => (v % 2 === 0 ? REST_STEP + 1 : 1);
    expect(Array.from(attribute('a_onScale').array)).toEqual(Array.from(loaded.cloth.source, placeOf));
    const wraps = findWraps(fabric, grid), places = loaded.wrapGeometry.getAttribute('a_onScale').array;
    expect(wraps.length).toBeGreaterThan(0);
    wraps.forEach(({ host }, bar) => {
      const from = (bar * places.length) / wraps.length;
      expect(new Set(places.slice(from, from + places.length / wraps.length))).toEqual(new Set([placeOf(host)]));
    });
  });
});
