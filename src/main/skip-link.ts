import type { PageState } from '../panel/page-state.ts';
import { pageWords } from '../words/page-words.ts';

/** The first stop of the Tab key leads past the bars: to the controls, or to the contents of another room. The address stays, whose hash may hold a sock. */
export function createSkipLink(link: HTMLAnchorElement): { render(state: PageState): void } {
  let target = 'panel';
  link.addEventListener('click', (event) => {
    const element = document.getElementById(target);
    if (element === null) return;
    event.preventDefault();
    element.tabIndex = -1;
    element.focus();
  });
  return {
    render: ({ settings: { room } }) => {
      const { toControls, toRoom } = pageWords().page;
      target = room === 'shape' ? 'panel' : `room-${room}`;
      link.href = `#${target}`;
      link.textContent = room === 'shape' ? toControls : toRoom;
    },
  };
}
