import type { CameraRig } from './camera-rig.ts';

const TURN = Math.PI / 24;
const SHIFT = 0.06;
/** A touch that moves less than this many pixels is a tap. */
const TAP_PIXELS = 6;

/** Keys on the focused canvas: arrows turn, with shift they shift, plus and minus zoom, 0 or Home frames again. */
function handleKey(rig: CameraRig, event: KeyboardEvent): boolean {
  if (event.altKey || event.ctrlKey || event.metaKey) return false;
  const arrows: Readonly<Record<string, readonly [number, number]>> = {
    ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1],
  };
  const arrow = arrows[event.key];
  if (arrow && event.shiftKey) rig.panBy(SHIFT * arrow[0], SHIFT * arrow[1]);
  else if (arrow) rig.orbitBy(TURN * arrow[0], TURN * arrow[1]);
  else if (event.key === '+' || event.key === '=') rig.zoomBy(1.2);
  else if (event.key === '-' || event.key === '_') rig.zoomBy(1 / 1.2);
  else if (event.key === '0' || event.key === 'Home') rig.frame(true);
  else return false;
  return true;
}

/**
 * Listens on the canvas: keys move the camera, a resting pointer or a tap asks `pointAt` for the
 * loop under it (null when it leaves). Gives back a function that stops listening.
 */
export function listenToCanvas(canvas: HTMLCanvasElement, rig: CameraRig, pointAt: (at: { x: number; y: number } | null) => void): () => void {
  const aborter = new AbortController(), { signal } = aborter;
  let tap: { x: number; y: number } | null = null;
  if (canvas.tabIndex < 0) canvas.tabIndex = 0;
  canvas.addEventListener('keydown', (event) => { if (handleKey(rig, event)) event.preventDefault(); }, { signal });
  canvas.addEventListener('pointermove', (event) => {
    if (event.pointerType !== 'touch') pointAt(event.buttons === 0 ? { x: event.clientX, y: event.clientY } : null);
  }, { signal });
  canvas.addEventListener('pointerleave', (event) => { if (event.pointerType !== 'touch') pointAt(null); }, { signal });
  canvas.addEventListener('pointerdown', (event) => { tap = { x: event.clientX, y: event.clientY }; }, { signal });
  canvas.addEventListener('pointerup', (event) => {
    if (event.pointerType !== 'touch' || !tap) return;
    const isTap = Math.abs(event.clientX - tap.x) + Math.abs(event.clientY - tap.y) < TAP_PIXELS;
    pointAt(isTap ? { x: event.clientX, y: event.clientY } : null);
  }, { signal });
  return () => { aborter.abort(); };
}
