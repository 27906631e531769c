import type { RoomName } from '../panel/page-state.ts';

/** Up to this width the page scrolls, and the picture is too small for a card over it (layout.css). */
const NARROW = '(max-width: 1240px)';

/** Where the card of the picked stitch stands: over the picture, under it where that is small, beside the chart. `moved` is called when the window has made it another place. */
export function stitchHost(page: HTMLElement, moved: () => void): (room: RoomName) => HTMLElement {
  const narrow = matchMedia(NARROW), byId = (id: string): HTMLElement => page.querySelector<HTMLElement>(`#${id}`) ?? page;
  narrow.addEventListener('change', moved);
  return (room) => {
    if (room === 'chart') return byId('room-chart');
    return byId(room === 'shape' && narrow.matches && !page.classList.contains('is-large') ? 'stitch-dock' : 'stage');
  };
}
