import type { KnittedSock } from '../pipeline/result.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { FrameSource } from '../sheet/make-film.ts';
import { createSockView } from '../view/sock-view.ts';
import type { Theme } from '../view/sock-view-types.ts';
import { client } from '../worker/client.ts';
import { openWorker } from '../worker/open-worker.ts';
import { aroundOf, clothOf, coloursOf } from './picture-cloth.ts';

export interface FilmSource {
  readonly frameAt: FrameSource;
  dispose(): void;
}

/** Pictures of a sock on the machine after any pass, drawn on a canvas of their own by a worker's shapes. Throws where the browser cannot draw. */
export function createFilmSource(file: SockFile, canvas: HTMLCanvasElement, theme: Theme): FilmSource {
  const view = createSockView(canvas, theme), work = client(openWorker);
  let isFramed = true;
  return {
    frameAt: async (pass) => {
      const knitted: KnittedSock[] = [];
      const outcome = await work.make(file, 'beds', { onKnitted: (sock) => { knitted.push(sock); } }, pass), sock = knitted.at(-1);
      if (outcome.status !== 'posed' || sock === undefined) return null;
      const { fabric, grid } = clothOf(sock, outcome.posed);
      view.setFabric(fabric, grid, coloursOf(sock));
      view.setPositions(outcome.posed.pose.positions, isFramed, 'beds', aroundOf(sock, outcome.posed));
      isFramed = false;
      return view.takePicture(1, 'plain');
    },
    dispose: () => {
      work.dispose();
      view.dispose();
    },
  };
}
