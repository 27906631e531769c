import type { KnittedSock } from '../pipeline/result.ts';
import type { FrameSource } from '../sheet/make-film.ts';
import { createSockView } from '../view/sock-view.ts';
import type { Theme } from '../view/sock-view-types.ts';
import { growthClient } from '../worker/growth-client.ts';
import { openWorker } from '../worker/open-worker.ts';
import { createGrowthDesk } from './growth-desk.ts';
import type { GrowthDesk } from './growth-desk.ts';

export interface FilmSource {
  readonly frameAt: FrameSource;
  /** Who waits for a picture gets none. */
  dispose(): void;
}

/**
 * Pictures of a growing sock after any pass, drawn on a canvas of their own: from shapes that the page knows, else by
 * a worker of their own, which makes no more of them than the pictures need. Throws where the browser cannot draw.
 */
export function createFilmSource(sock: KnittedSock, known: GrowthDesk, canvas: HTMLCanvasElement, theme: Theme): FilmSource {
  const view = createSockView(canvas, theme), own = createGrowthDesk(null, growthClient(openWorker));
  own.setSock(sock);
  let isFramed = false;
  return {
    frameAt: async (pass) => {
      const frame = known.knownAt(pass) ?? await own.frameAt(pass);
      if (frame === null) return null;
      view.setGrowth(frame);
      // From the first picture on the camera stays, as where a person has put it.
      if (!isFramed) view.zoomBy(1);
      isFramed = true;
      return view.takePicture(1, 'plain');
    },
    dispose: () => {
      own.dispose();
      view.dispose();
    },
  };
}
