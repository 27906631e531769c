/** What hands and feet may do at the stand. */
export interface HandHooks {
  readonly isListening: () => boolean;
  readonly forward: () => void;
  readonly back: () => void;
  /** A long press. */
  readonly undo: () => void;
  readonly leave: () => void;
  readonly forwardKey: () => string | null;
  readonly backKey: () => string | null;
  /** A ring grows where a finger is held down; null takes it away. */
  readonly ring: (at: { readonly x: number; readonly y: number } | null) => void;
}

/** A wet finger taps twice, a pedal's contact bounces: what follows so soon is no second step. Chosen by eye. */
const TAP_REST_MS = 250;
const KEY_REST_MS = 50;
/** Escape so soon after a sheet has closed was meant for the sheet. Chosen by eye. */
const ESCAPE_REST_MS = 1000;
/** Chosen by eye: long enough that no tap is taken for it. */
export const LONG_PRESS_MS = 700;
/** The ring shows itself only to a finger that stays. */
const RING_AFTER_MS = 160;
/** A finger that slips further than this was no tap. */
const SLIP_PX = 28;

const FORWARD_KEYS: ReadonlySet<string> = new Set([' ', 'Enter', 'ArrowRight', 'ArrowDown', 'PageDown']);
const BACK_KEYS: ReadonlySet<string> = new Set(['ArrowLeft', 'ArrowUp', 'PageUp', 'Backspace']);

/** The name under which a pedal's key is learned: its place on a keyboard, else what it types. */
export const pedalKey = ({ code, key }: Pick<KeyboardEvent, 'code' | 'key'>): string => (code === '' || code === 'Unidentified' ? key : code);

/** The tab of the room that is shown does nothing, and takes no key. */
const isControl = (target: EventTarget | null): boolean => target instanceof Element && target.closest('button:not([aria-current="page"]), input, select, textarea, a, summary') !== null;
const isWritten = (target: EventTarget | null): boolean => target instanceof Element && target.closest('input, select, textarea') !== null;

/** A press on it is a tap like any other, and held down it undoes. */
const isForwardButton = (target: EventTarget | null): boolean => target instanceof Element && target.closest('.stand-forward') !== null;

/** Listens to keys everywhere and to touch and mouse on `zone`, as long as the room is shown. */
export function listenToHands(zone: HTMLElement, hooks: HandHooks): void {
  listenToKeys(hooks);
  listenToTouch(zone, hooks);
}

function listenToKeys(hooks: HandHooks): void {
  let lastKey = -Infinity, lastClosed = -Infinity;
  // A sheet's closing does not bubble, but is seen on its way down.
  window.addEventListener('close', (event) => { if (event.target instanceof HTMLDialogElement) lastClosed = event.timeStamp; }, { capture: true });
  // It is told of late: a key may come before it. A press on a sheet may be what closes it.
  window.addEventListener('click', (event) => { if (document.querySelector('dialog[open]') !== null) lastClosed = event.timeStamp; }, { capture: true });
  const step = (event: KeyboardEvent, move: () => void): void => {
    event.preventDefault();
    event.stopPropagation();
    // A key that is held down is one step, not many.
    if (event.repeat || event.timeStamp - lastKey < KEY_REST_MS) return;
    lastKey = event.timeStamp;
    move();
  };
  window.addEventListener('keydown', (event) => {
    if (!hooks.isListening() || event.ctrlKey || event.metaKey || event.altKey || isWritten(event.target)) return;
    const name = pedalKey(event);
    if (name === hooks.forwardKey()) { step(event, hooks.forward); return; }
    if (name === hooks.backKey()) { step(event, hooks.back); return; }
    // A button under the focus takes the keys that press it, once.
    if (isControl(event.target) && (event.key === ' ' || event.key === 'Enter')) {
      if (event.repeat) event.preventDefault();
      return;
    }
    if (FORWARD_KEYS.has(event.key)) step(event, hooks.forward);
    else if (BACK_KEYS.has(event.key)) step(event, hooks.back);
    else if (event.key === 'Escape' && document.fullscreenElement === null && event.timeStamp - lastClosed > ESCAPE_REST_MS) step(event, hooks.leave);
  }, { capture: true });
}

function listenToTouch(zone: HTMLElement, hooks: HandHooks): void {
  let held: { readonly id: number; readonly x: number; readonly y: number; readonly ring: number; readonly undo: number; isUndone: boolean } | null = null;
  let lastTap = -Infinity;
  const letGo = (): void => {
    if (held === null) return;
    clearTimeout(held.ring);
    clearTimeout(held.undo);
    held = null;
    hooks.ring(null);
  };
  zone.addEventListener('pointerdown', (event) => {
    if (held !== null || !event.isPrimary || event.button !== 0 || (isControl(event.target) && !isForwardButton(event.target))) return;
    const { clientX: x, clientY: y, pointerId: id } = event;
    zone.setPointerCapture(id);
    held = {
      id, x, y, isUndone: false,
      ring: window.setTimeout(() => { hooks.ring({ x, y }); }, RING_AFTER_MS),
      undo: window.setTimeout(() => {
        if (held === null) return;
        held.isUndone = true;
        hooks.undo();
      }, LONG_PRESS_MS),
    };
  });
  zone.addEventListener('pointermove', (event) => {
    if (held?.id === event.pointerId && Math.hypot(event.clientX - held.x, event.clientY - held.y) > SLIP_PX) letGo();
  });
  zone.addEventListener('pointerup', (event) => {
    if (held?.id !== event.pointerId) return;
    const { isUndone } = held;
    letGo();
    if (isUndone || event.timeStamp - lastTap < TAP_REST_MS) return;
    lastTap = event.timeStamp;
    hooks.forward();
  });
  zone.addEventListener('pointercancel', letGo);
  zone.addEventListener('contextmenu', (event) => { event.preventDefault(); });
}
