import { measureRest } from '../measure/measure-rest.ts';
import { changeWords } from '../panel/advice-words.ts';
import type { AdviceHooks } from '../panel/advice-sheet.ts';
import { DEFAULTS } from '../plan/defaults.ts';
import { pageWords } from '../words/page-words.ts';
import type { AdviceClient } from '../worker/advice-client.ts';
import type { PageStore } from './page-store.ts';
import type { SockDesk } from './sock-desk.ts';

/** Where advice is asked for and taken: the whole of it is one step, which a notice offers to take back. */
export function createAdviceDesk(store: PageStore, deskOf: () => SockDesk, work: AdviceClient): AdviceHooks {
  return {
    ask: work.ask,
    cancel: work.cancel,
    measure: measureRest,
    use: ({ file, changes }) => {
      const { file: old } = store.state(), before = { ...old, name: pageWords().advice.asItWas(old.name ?? DEFAULTS.name) };
      deskOf().propose(file, null);
      store.tell('advice', pageWords().advice.changed, `${sentence(changeWords(changes))}.`, { before });
    },
  };
}

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
