export interface ShortcutHooks {
  readonly undo: () => void;
  readonly redo: () => void;
  readonly save: () => void;
  /** The next thing that the colours can tell. */
  readonly nextLayer: () => void;
}

/** Undo, redo and save by keyboard, and the colours' turn on the focused picture; words that are being typed keep the browser's own undo. */
export function listenToShortcuts(hooks: ShortcutHooks): void {
  window.addEventListener('keydown', (event) => {
    if (event.altKey) return;
    const action = actionOf(event, hooks);
    if (action === null) return;
    event.preventDefault();
    action();
    // On the way down: the control panel keeps key presses inside itself on their way up.
  }, { capture: true });
}

function actionOf(event: KeyboardEvent, hooks: ShortcutHooks): (() => void) | null {
  const key = event.key.toLowerCase();
  // Nothing is to change behind a sheet that lies over the page.
  if (document.querySelector('dialog[open]') !== null) return null;
  if (!(event.ctrlKey || event.metaKey)) return key === 'c' && event.target instanceof HTMLCanvasElement ? hooks.nextLayer : null;
  if (key === 's' && !event.shiftKey) return hooks.save;
  if (isWords(event.target)) return null;
  if (key === 'z') return event.shiftKey ? hooks.redo : hooks.undo;
  return key === 'y' && !event.shiftKey ? hooks.redo : null;
}

function isWords(target: EventTarget | null): boolean {
  return target instanceof HTMLInputElement && target.type === 'text' && target.getAttribute('role') !== 'spinbutton';
}
