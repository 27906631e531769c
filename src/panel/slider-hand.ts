/** What a slider needs to know of its number, in the unit shown. */
export interface SliderRange { readonly min: number; readonly max: number; readonly step: number }

export interface SliderHooks {
  readonly range: () => SliderRange;
  readonly value: () => number;
  readonly onMove: (value: number) => void;
  readonly onLetGo: () => void;
}

const PAGE_STEPS = 5;

/** The nearest multiple of the step within the range. */
export function snapToRange(value: number, { min, max, step }: SliderRange): number {
  const snapped = Number((Math.round(value / step) * step).toPrecision(12));
  return Math.min(max, Math.max(min, snapped));
}

/**
 * Makes a plain element a slider for mouse, finger, pen and keyboard. The browser keeps vertical
 * swipes for scrolling (`touch-action: pan-y` in the style), so that a panel can be scrolled by it.
 */
export function attachSlider(track: HTMLElement, hooks: SliderHooks): void {
  const moveTo = (clientX: number): void => {
    const { left, width } = track.getBoundingClientRect();
    const range = hooks.range();
    const fraction = Math.min(1, Math.max(0, (clientX - left) / Math.max(1, width)));
    hooks.onMove(snapToRange(range.min + fraction * (range.max - range.min), range));
  };
  track.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    track.setPointerCapture(event.pointerId);
    track.focus();
    if (event.pointerType === 'mouse') moveTo(event.clientX);
  });
  track.addEventListener('pointermove', (event) => {
    if (track.hasPointerCapture(event.pointerId)) moveTo(event.clientX);
  });
  track.addEventListener('pointerup', (event) => {
    if (track.hasPointerCapture(event.pointerId)) moveTo(event.clientX);
  });
  track.addEventListener('lostpointercapture', () => { hooks.onLetGo(); });
  track.addEventListener('keydown', (event) => {
    const steps = stepsOfKey(event.key);
    if (steps === null || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    const range = hooks.range();
    hooks.onMove(snapToRange(hooks.value() + steps * range.step, range));
  });
  track.addEventListener('keyup', (event) => { if (stepsOfKey(event.key) !== null) hooks.onLetGo(); });
  track.addEventListener('blur', () => { hooks.onLetGo(); });
}

function stepsOfKey(key: string): number | null {
  switch (key) {
    case 'ArrowRight': case 'ArrowUp': return 1;
    case 'ArrowLeft': case 'ArrowDown': return -1;
    case 'PageUp': return PAGE_STEPS;
    case 'PageDown': return -PAGE_STEPS;
    case 'Home': return -Infinity;
    case 'End': return Infinity;
    default: return null;
  }
}
