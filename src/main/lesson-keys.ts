export interface LessonKeys {
  readonly turn: (by: number) => void;
  readonly isProjected: () => boolean;
  readonly leaveProjector: () => void;
}

/**
 * Arrow keys turn the lesson's pages, and so do those of a presenter's clicker (page up and down), even where a
 * slider has the focus. Arrow keys are left to sliders, fields and the picture. Gives back what ends the listening.
 */
export function listenToLessonKeys({ turn, isProjected, leaveProjector }: LessonKeys): () => void {
  const onKey = (event: KeyboardEvent): void => {
    if (event.altKey || event.ctrlKey || event.metaKey || document.querySelector('dialog[open]') !== null) return;
    if (event.key === 'Escape') { if (isProjected()) leaveProjector(); return; }
    const by = pagesOf(event);
    if (by === 0) return;
    event.preventDefault();
    event.stopPropagation();
    turn(by);
  };
  // The whole screen is left by the browser's own key, which the page does not hear.
  const onFullscreen = (): void => { if (document.fullscreenElement === null && isProjected()) leaveProjector(); };
  window.addEventListener('keydown', onKey, { capture: true });
  document.addEventListener('fullscreenchange', onFullscreen);
  return () => {
    window.removeEventListener('keydown', onKey, { capture: true });
    document.removeEventListener('fullscreenchange', onFullscreen);
  };
}

function pagesOf({ key, target, shiftKey }: KeyboardEvent): number {
  if (shiftKey) return 0;
  if (key === 'PageDown') return 1;
  if (key === 'PageUp') return -1;
  const isTaken = target instanceof HTMLElement && target.closest('input, select, textarea, canvas, [role=slider]') !== null;
  if (isTaken) return 0;
  return key === 'ArrowRight' ? 1 : key === 'ArrowLeft' ? -1 : 0;
}
