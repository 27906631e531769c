import type { RectangleElements } from '../../src/solve/quad-membrane.ts';
import type { LineBends } from '../../src/solve/bending.ts';

/** A grid of nodes, `columns` by `rows`, joined round (a tube) or not; node (r, c) is r * columns + c. */
export interface Sheet {
  readonly columns: number;
  readonly rows: number;
  readonly isTube: boolean;
  readonly nodeCount: number;
  readonly elements: RectangleElements;
  readonly bends: (stiffness: number) => LineBends;
}

export function makeSheet(columns: number, rows: number, isTube: boolean, a: number, b: number): Sheet {
  const id = (r: number, c: number): number => r * columns + (c % columns);
  const across = isTube ? columns : columns - 1;
  const corners: number[] = [];
  for (let r = 0; r + 1 < rows; r++) {
    for (let c = 0; c < across; c++) corners.push(id(r, c), id(r, c + 1), id(r + 1, c + 1), id(r + 1, c));
  }
  const count = corners.length / 4;
  return {
    columns, rows, isTube, nodeCount: columns * rows,
    elements: { corners: Int32Array.from(corners), widths: new Float64Array(count).fill(a), heights: new Float64Array(count).fill(b) },
    bends: (stiffness) => bends(columns, rows, isTube, a, b, stiffness),
  };
}

function bends(columns: number, rows: number, isTube: boolean, a: number, b: number, stiffness: number): LineBends {
  const middle: number[] = [], ahead: number[] = [], behind: number[] = [], lengths: number[] = [];
  const add = (i: number, j: number, k: number, h: number): void => {
    middle.push(j);
    ahead.push(i);
    behind.push(k);
    lengths.push(h);
  };
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const at = r * columns + c, base = r * columns;
      if (isTube) add(base + (c + columns - 1) % columns, at, base + (c + 1) % columns, a);
      else if (c > 0 && c + 1 < columns) add(at - 1, at, at + 1, a);
      if (r > 0 && r + 1 < rows) add(at - columns, at, at + columns, b);
    }
  }
  return {
    middle: Int32Array.from(middle), ahead: Int32Array.from(ahead), behindFirst: Int32Array.from(behind), behindSecond: Int32Array.from(behind),
    share: new Float64Array(middle.length), lengthAhead: Float64Array.from(lengths), lengthBehind: Float64Array.from(lengths),
    weights: new Float64Array(middle.length).fill(stiffness * a * b),
  };
}

/** Positions of a tube of the given radius along z. */
export function tubePositions(sheet: Sheet, radius: number, rowHeight: number): Float64Array {
  const x = new Float64Array(3 * sheet.nodeCount);
  for (let r = 0; r < sheet.rows; r++) {
    for (let c = 0; c < sheet.columns; c++) {
      const angle = 2 * Math.PI * c / sheet.columns, i = 3 * (r * sheet.columns + c);
      x[i] = radius * Math.cos(angle);
      x[i + 1] = radius * Math.sin(angle);
      x[i + 2] = r * rowHeight;
    }
  }
  return x;
}

/** Polygons of a tube with both ends capped, counter-clockwise seen from outside. */
export function closedTube(sheet: Sheet): { start: Int32Array; corners: Int32Array } {
  const start = [0], corners: number[] = [];
  const quads = sheet.elements.corners;
  for (let q = 0; q < quads.length; q += 4) {
    corners.push(quads[q], quads[q + 1], quads[q + 2], quads[q + 3]);
    start.push(corners.length);
  }
  for (let c = sheet.columns - 1; c >= 0; c--) corners.push(c);
  start.push(corners.length);
  for (let c = 0; c < sheet.columns; c++) corners.push((sheet.rows - 1) * sheet.columns + c);
  start.push(corners.length);
  return { start: Int32Array.from(start), corners: Int32Array.from(corners) };
}
