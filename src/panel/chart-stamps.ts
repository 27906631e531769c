import type { ChartMark } from '../sheet/chart-marks.ts';

/** Marks drawn once for a size of cell, to be put down thousands of times. */
export interface MarkStamps {
  readonly pixelRatio: number;
  stamp(mark: ChartMark, width: number, height: number, colour: string): CanvasImageSource;
  /** Of a stamp for a cell so wide or high, CSS pixels. */
  cssWidth(cell: number): number;
}

export function createMarkStamps(paths: Readonly<Record<ChartMark, string>>, pixelRatio: number): MarkStamps {
  const made = new Map<string, HTMLCanvasElement>();
  let madeFor = '';
  const pixels = (cell: number): number => Math.max(1, Math.round(cell * pixelRatio));
  return {
    pixelRatio,
    cssWidth: (cell) => pixels(cell) / pixelRatio,
    stamp: (mark, width, height, colour) => {
      const size = `${pixels(width)} ${pixels(height)} ${colour}`;
      if (size !== madeFor) made.clear();
      madeFor = size;
      const known = made.get(mark);
      if (known !== undefined) return known;
      const canvas = document.createElement('canvas');
      canvas.width = pixels(width);
      canvas.height = pixels(height);
      const context = canvas.getContext('2d');
      if (context === null) throw new Error('chart-stamps: no 2d canvas');
      context.scale(canvas.width, canvas.height);
      context.fillStyle = colour;
      context.fill(new Path2D(paths[mark]), 'evenodd');
      made.set(mark, canvas);
      return canvas;
    },
  };
}
