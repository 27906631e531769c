import type { LookStep } from '../panel/look-bar.ts';

export interface ShortcutHooks {
  readonly undo: () => void;
  readonly redo: () => void;
  readonly save: () => void;
  /** The next thing that the colours can tell. */
  readonly nextLayer: () => void;
  /** Picks a stitch in the picture, or goes to the card of the picked one. */
  readonly enterStitch: () => void;
  readonly lookCloser: (step: LookStep) => void;
  readonly cutFurther: () => void;
  readonly turnInsideOut: () => void;
}

/** Undo, redo and save by keyboard, and on the focused picture its colours, the close look and the picked stitch; words that are being typed keep the browser's own undo. */
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
  if (!(event.ctrlKey || event.metaKey)) return event.target instanceof HTMLCanvasElement && event.target.id === 'sock' ? onPicture(key, hooks) : null;
  if (key === 's' && !event.shiftKey) return hooks.save;
  if (isWords(event.target)) return null;
  if (key === 'z') return event.shiftKey ? hooks.redo : hooks.undo;
  return key === 'y' && !event.shiftKey ? hooks.redo : null;
}

const LOOKS: Readonly<Partial<Record<string, LookStep>>> = { 1: 'whole', 2: 'heel', 3: 'toe', 4: 'few', 5: 'one' };

function onPicture(key: string, hooks: ShortcutHooks): (() => void) | null {
  const look = LOOKS[key];
  if (look !== undefined) return () => { hooks.lookCloser(look); };
  switch (key) {
    case 'c': return hooks.nextLayer;
    case 'enter': return hooks.enterStitch;
    case 'x': return hooks.cutFurther;
    case 'i': return hooks.turnInsideOut;
    default: return null;
  }
}

function isWords(target: EventTarget | null): boolean {
  return target instanceof HTMLInputElement && target.type === 'text' && target.getAttribute('role') !== 'spinbutton';
}
