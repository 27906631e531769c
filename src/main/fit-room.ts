import { drawFootOutlines } from '../foot/draw-foot.ts';
import { makeFootForm } from '../foot/foot-form.ts';
import { measuringGuide } from '../foot/measuring-guide.ts';
import { createAdviceSheet } from '../panel/advice-sheet.ts';
import { createFitCard } from '../panel/fit-card.ts';
import { createGuideSheet } from '../panel/guide-sheet.ts';
import type { MeasureHooks } from '../panel/measures-card.ts';
import type { PageState, Settings } from '../panel/page-state.ts';
import { adviceClient } from '../worker/advice-client.ts';
import { openWorker } from '../worker/open-worker.ts';
import { shapeKey } from '../worker/shape-memory.ts';
import { createAdviceDesk } from './advice-desk.ts';
import type { PageStore } from './page-store.ts';
import type { SockDesk } from './sock-desk.ts';

export interface FitRoom {
  readonly parts: readonly { render(state: PageState): void }[];
  readonly showHowToMeasure: () => void;
}

export interface FitTools {
  readonly host: HTMLElement;
  readonly store: PageStore;
  readonly deskOf: () => SockDesk;
  readonly choose: (change: Partial<Settings>) => void;
  readonly showLine: MeasureHooks['showLine'];
}

/** How the sock fits, how a foot is measured, and advice for one that fits better. */
export function createFitRoom({ host, store, deskOf, choose, showLine }: FitTools): FitRoom {
  const advice = createAdviceSheet(createAdviceDesk(store, deskOf, adviceClient(openWorker)));
  const guide = createGuideSheet({ guide: measuringGuide(), drawFoot: ({ body }) => drawFootOutlines(makeFootForm(body)) });
  const fit = createFitCard(host, {
    showLine, putOn: () => { choose({ pose: 'worn' }); }, makeItFit: advice.open, showLayer: (layer) => { choose({ pose: 'worn', layer }); }, showHowToMeasure: guide.open,
    isSameSock: (a, b) => a === b || shapeKey(a, 'worn', null) === shapeKey(b, 'worn', null),
  });
  return { parts: [fit, advice, guide], showHowToMeasure: guide.open };
}
