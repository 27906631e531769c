import { connectTriangles } from '../../src/measure/surface.ts';
import type { Surface } from '../../src/measure/surface.ts';

/** How a rolled-up sheet of `columns` x `rows` quads is split and how far its points are pushed about. */
export interface SheetOptions {
  readonly columns: number;
  readonly rows: number;
  /** Each row is turned on by this share of a column: triangles lean over. */
  readonly lean: number;
  /** Points are moved along the surface by up to this share of a cell, by a fixed rule. */
  readonly jitter: number;
}

export interface RolledSheet { readonly surface: Surface; readonly turns: Float64Array; readonly heights: Float64Array }

/**
 * A surface of revolution as triangles, closed round the axis: point (turn 0..1, height 0..1) is
 * placed by `place`. Every second quad is split along its other diagonal.
 */
export function rollSheet(options: SheetOptions, place: (turn: number, height: number) => readonly [number, number, number]): RolledSheet {
  const { columns, rows } = options;
  const count = columns * (rows + 1);
  const turns = new Float64Array(count);
  const heights = new Float64Array(count);
  const positions = new Float64Array(3 * count);
  for (let r = 0; r <= rows; r++) {
    for (let c = 0; c < columns; c++) {
      const i = r * columns + c;
      const isRim = r === 0 || r === rows;
      turns[i] = (c + options.lean * r + options.jitter * wobble(2 * i)) / columns;
      heights[i] = (r + (isRim ? 0 : options.jitter * wobble(2 * i + 1))) / rows;
      positions.set(place(turns[i], heights[i]), 3 * i);
    }
  }
  const triangles: number[] = [];
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const a = r * columns + c;
      const b = r * columns + ((c + 1) % columns);
      if ((r + c) % 2 === 0) triangles.push(a, b, b + columns, a, b + columns, a + columns);
      else triangles.push(a, b, a + columns, b, b + columns, a + columns);
    }
  }
  return { surface: connectTriangles(positions, Int32Array.from(triangles)), turns, heights };
}

/** -1..1, the same for the same number. */
function wobble(i: number): number {
  const x = Math.sin(i * 12.9898 + 4.1) * 43758.5453;
  return 2 * (x - Math.floor(x)) - 1;
}
