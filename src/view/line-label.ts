import type { Scheme } from './colour.ts';
import type { PlaceInPicture } from './measure-line.ts';

const GAP_PIXELS = 12, MARGIN_PIXELS = 6;

function clamp(value: number, room: number): number {
  return Math.min(Math.max(value, MARGIN_PIXELS), Math.max(MARGIN_PIXELS, room - MARGIN_PIXELS));
}

/** The words at a measure line's middle: an element beside the canvas, hidden from screen readers (the measures are read in their card). */
export class LineLabel {
  private readonly element = document.createElement('div');
  private readonly canvas: HTMLCanvasElement;

  constructor(canvas: HTMLCanvasElement) {
    this.canvas = canvas;
    this.element.setAttribute('aria-hidden', 'true');
    this.element.className = 'line-label';
    Object.assign(this.element.style, {
      position: 'absolute', left: '0', top: '0', pointerEvents: 'none', whiteSpace: 'nowrap', display: 'none',
      padding: '4px 9px', borderRadius: '7px', willChange: 'transform',
    });
    canvas.parentElement?.append(this.element);
  }

  setText(text: string): void { this.element.textContent = text; }

  setScheme(scheme: Scheme): void {
    this.element.style.color = scheme.labelInk;
    this.element.style.background = scheme.labelPaper;
    this.element.style.boxShadow = '0 1px 5px rgba(0, 0, 0, 0.28)';
  }

  /** Place beside the line, on its upper side and clear of it; null hides the label. Kept inside the canvas. */
  place(at: PlaceInPicture | null): void {
    const { style } = this.element;
    const isShown = at !== null && this.element.textContent !== '';
    style.display = isShown ? 'block' : 'none';
    if (!isShown) return;
    const { clientWidth, clientHeight, offsetLeft, offsetTop } = this.canvas;
    const width = this.element.offsetWidth, height = this.element.offsetHeight;
    const alongX = at.alongX * clientWidth, alongY = at.alongY * clientHeight, length = Math.hypot(alongX, alongY) || 1;
    const sign = alongX >= 0 ? 1 : -1, acrossX = (sign * alongY) / length, acrossY = (-sign * alongX) / length;
    const reach = GAP_PIXELS + (Math.abs(acrossX) * width + Math.abs(acrossY) * height) / 2;
    const x = clamp(at.x * clientWidth + reach * acrossX - width / 2, clientWidth - width);
    const y = clamp(at.y * clientHeight + reach * acrossY - height / 2, clientHeight - height);
    style.transform = `translate(${Math.round(offsetLeft + x)}px, ${Math.round(offsetTop + y)}px)`;
  }

  dispose(): void { this.element.remove(); }
}
