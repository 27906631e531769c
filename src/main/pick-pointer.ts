import type { HoveredLoop } from '../view/sock-view-types.ts';

/** Pixels that a press may wander and still be a click, not a turn of the sock. */
const CLICK_PX = 5;

export interface PickPointer {
  /** What the pointer rests on from now on. */
  hover(hovered: HoveredLoop | null): void;
}

/** Hears a click or a tap on the picture: on the loop under it, or null on none. */
export function listenToPicks(canvas: HTMLCanvasElement, pick: (hovered: HoveredLoop | null) => void): PickPointer {
  let hovered: HoveredLoop | null = null, pressed: { readonly x: number; readonly y: number; readonly on: HoveredLoop | null } | null = null;
  canvas.addEventListener('pointerdown', ({ clientX, clientY, isPrimary, button }) => {
    pressed = isPrimary && button === 0 ? { x: clientX, y: clientY, on: hovered } : null;
  }, { capture: true });
  canvas.addEventListener('click', ({ clientX, clientY, pointerType }: PointerEvent) => {
    const from = pressed;
    pressed = null;
    if (from === null || Math.hypot(clientX - from.x, clientY - from.y) > CLICK_PX) return;
    // A tap points when the finger leaves, a mouse before it presses: a hand that moves a little on the button points at nothing.
    pick(pointerType === 'touch' ? hovered : from.on);
  });
  return { hover: (next) => { hovered = next; } };
}
