import type { PassPlace } from './pass-place.ts';

export interface PassKeys { listen(): void; deafen(): void }

const ROUND = 2;

/** Keys of the room of passes, wherever the focus is but in what needs them itself. */
export function listenToPassKeys(place: PassPlace): PassKeys {
  let isOn = false;
  const hear = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || document.querySelector('dialog[open]') !== null) return;
    if (needsKey(event.target, event.key)) return;
    const action = actionOf(event, place);
    if (action === null) return;
    event.preventDefault();
    action();
  };
  return {
    listen: () => {
      if (!isOn) window.addEventListener('keydown', hear);
      isOn = true;
    },
    deafen: () => {
      window.removeEventListener('keydown', hear);
      isOn = false;
    },
  };
}

function actionOf({ key, shiftKey }: KeyboardEvent, { stepBy, jump, goTo, play, halt }: PassPlace): (() => void) | null {
  const stops = shiftKey ? ROUND : 1;
  switch (key) {
    case 'ArrowLeft': return () => { stepBy(-stops); };
    case 'ArrowRight': return () => { stepBy(stops); };
    case 'PageUp': return () => { jump(-1); };
    case 'PageDown': return () => { jump(1); };
    case 'Home': return () => { goTo(0); };
    case 'End': return () => { goTo(Infinity); };
    case ' ': return () => { play(1); };
    case 'Escape': return halt;
    default: return null;
  }
}

/** Words being typed, lists, the picture that arrow keys turn, and the space bar on a button. */
function needsKey(target: EventTarget | null, key: string): boolean {
  if (!(target instanceof HTMLElement) || key === 'Escape') return false;
  if (target instanceof HTMLInputElement) return target.type !== 'range';
  if (key === ' ') return target instanceof HTMLButtonElement || target instanceof HTMLSelectElement || target.isContentEditable;
  if (target instanceof HTMLCanvasElement) return key.startsWith('Arrow');
  return target instanceof HTMLSelectElement || target instanceof HTMLTextAreaElement || target.isContentEditable;
}
