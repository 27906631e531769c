/**
 * The pen of a small drawing that changes with every step. "Read often" has the browser draw it with the processor:
 * a few thousand short strokes are soon done, while without a graphics card each of them goes the long way through
 * the software that stands in for one (`measured`: the browser's graphics then take a quarter to a half less of the processor).
 */
export function openPen(canvas: HTMLCanvasElement): CanvasRenderingContext2D | null {
  return canvas.getContext('2d', { willReadFrequently: true });
}
