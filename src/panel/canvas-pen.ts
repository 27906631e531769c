/**
 * The pen of a small drawing that changes with every step. "Read often" has the browser draw it with the processor:
 * without a graphics card a few thousand short strokes would else go the long way through the software that stands in for one.
 */
export function openPen(canvas: HTMLCanvasElement): CanvasRenderingContext2D | null {
  return canvas.getContext('2d', { willReadFrequently: true });
}
