import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes } from './dom.ts';
import type { DeckTab, PageState } from './page-state.ts';

export interface Deck { render(state: PageState): void }

const TABS: readonly DeckTab[] = ['measures', 'fit', 'compare'];

/** Tabs over pages of which one is shown. Arrow keys, Home and End go from tab to tab; only the shown one is a stop of the Tab key. */
export function createDeck(host: HTMLElement, pages: Readonly<Record<DeckTab, HTMLElement>>, choose: (tab: DeckTab) => void): Deck {
  const words = pageWords().stage.deck;
  const tabs = TABS.map((tab) => {
    const page = pages[tab], id = `tab-${tab}`;
    setAttributes(page, { role: 'tabpanel', 'aria-labelledby': id });
    return { tab, page, element: button(words.tabs[tab], { class: 'deck-tab', role: 'tab', id, 'aria-controls': page.id }, () => { choose(tab); }) };
  });
  const list = el('div', { class: 'deck-tabs', role: 'tablist', 'aria-label': words.label }, ...tabs.map(({ element }) => element));
  list.addEventListener('keydown', (event) => {
    const here = tabs.findIndex(({ element }) => element === document.activeElement), next = tabs[placeOfKey(event.key, here, tabs.length)];
    if (here < 0 || next === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    choose(next.tab);
    next.element.focus();
  });
  host.prepend(list);
  return {
    render: (state) => {
      for (const { tab, page, element } of tabs) {
        const isShown = tab === state.tab;
        page.hidden = !isShown;
        setAttributes(element, { 'aria-selected': String(isShown), tabindex: isShown ? 0 : -1 });
      }
    },
  };
}

/** Where a key leads to from tab number `here`; -1 for a key that leads nowhere. */
function placeOfKey(key: string, here: number, count: number): number {
  switch (key) {
    case 'ArrowRight': case 'ArrowDown': return (here + 1) % count;
    case 'ArrowLeft': case 'ArrowUp': return (here + count - 1) % count;
    case 'Home': return 0;
    case 'End': return count - 1;
    default: return -1;
  }
}
