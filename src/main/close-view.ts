import type { SockView } from '../view/sock-view-types.ts';

/** What the picture drew last. */
export interface DrawnDetail { readonly pixelsPerStitch: number; readonly level: 'mesh' | 'blend' | 'yarn' }

/** Calls of the picture for a close look. */
interface CloseView {
  setCut(share: number | null): void;
  setInsideOut(isInsideOut: boolean): void;
  approach(loop: number, pixelsPerStitch: number): void;
  detail(): DrawnDetail;
}

/** The same view, of which these calls may be missing. */
export function closeView(view: SockView | null): Partial<CloseView> { return view === null ? {} : view as SockView & Partial<CloseView>; }
