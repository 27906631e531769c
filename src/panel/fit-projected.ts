/** Letters on the projector shrink to this share before the words scroll: still read from the back row. Chosen by eye. */
const LEAST_SHARE = 0.7, STEP = 0.05;

/** On the projector: the largest letters with which a step's words, and an answer that is opened, fit without scrolling. */
export function fitProjected(scroller: HTMLElement): () => void {
  const fit = (): void => {
    scroller.style.removeProperty('--lesson-fit');
    if (!document.body.classList.contains('is-projected')) return;
    for (let share = 1 - STEP; share >= LEAST_SHARE - 1e-9 && scroller.scrollHeight > scroller.clientHeight; share -= STEP) scroller.style.setProperty('--lesson-fit', share.toFixed(2));
  };
  new ResizeObserver(fit).observe(scroller);
  // An answer's own event does not bubble.
  scroller.addEventListener('toggle', fit, { capture: true });
  return fit;
}
