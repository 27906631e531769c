import type { Fabric } from '../fabric/fabric.ts';
import type { RectangleElements } from '../solve/quad-membrane.ts';
import type { TriangleElements } from '../solve/triangle-membrane.ts';
import { clipEars, isPlumpQuad, restPolygon } from './rest-polygon.ts';
import type { Corner } from './rest-polygon.ts';

export interface ClothElements {
  readonly rectangles: RectangleElements;
  readonly triangles: TriangleElements;
}

/** Cells off a rectangle by less than this share of their size count as one. */
const SQUARE_TOLERANCE = 1e-6;

/** Sorts the cells of a fabric into rectangles and triangles for the membrane. */
export function makeClothElements(fabric: Fabric): ClothElements {
  const corners: number[] = [], widths: number[] = [], heights: number[] = [];
  const triangleCorners: number[] = [], rest: number[] = [], shares: number[] = [];
  const addTriangle = (a: Corner, b: Corner, c: Corner, share: number): void => {
    triangleCorners.push(a.vertex, b.vertex, c.vertex);
    rest.push(a.s, a.t, b.s, b.t, c.s, c.t);
    shares.push(share);
  };
  for (let cell = 0; cell + 1 < fabric.cellStart.length; cell++) {
    const polygon = restPolygon(fabric, cell);
    const rectangle = asRectangle(polygon);
    if (rectangle !== null) {
      corners.push(...rectangle.map((corner) => corner.vertex));
      widths.push(rectangle[1].s - rectangle[0].s);
      heights.push(rectangle[3].t - rectangle[0].t);
    } else if (polygon.length === 4 && isPlumpQuad(polygon)) {
      for (let k = 0; k < 4; k++) addTriangle(polygon[k], polygon[(k + 1) % 4], polygon[(k + 3) % 4], 0.5);
    } else {
      for (const [a, b, c] of clipEars(polygon)) addTriangle(a, b, c, 1);
    }
  }
  return {
    rectangles: { corners: Int32Array.from(corners), widths: Float64Array.from(widths), heights: Float64Array.from(heights) },
    triangles: {
      corners: Int32Array.from(triangleCorners), rest: Float64Array.from(rest), shares: Float64Array.from(shares),
      cellWidth: fabric.courseMm, cellHeight: fabric.waleMm,
    },
  };
}

/** The corners from the lower left one, if the polygon is an upright rectangle. */
function asRectangle(polygon: readonly Corner[]): Corner[] | null {
  if (polygon.length !== 4) return null;
  for (let first = 0; first < 4; first++) {
    const [a, b, c, d] = [0, 1, 2, 3].map((k) => polygon[(first + k) % 4]);
    const width = b.s - a.s, height = d.t - a.t;
    const slack = SQUARE_TOLERANCE * (Math.abs(width) + Math.abs(height));
    const isUpright = Math.abs(b.t - a.t) < slack && Math.abs(d.s - a.s) < slack
      && Math.abs(c.s - b.s) < slack && Math.abs(c.t - d.t) < slack;
    if (isUpright && width > 0 && height > 0) return [a, b, c, d];
  }
  return null;
}
