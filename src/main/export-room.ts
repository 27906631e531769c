import { createExportDialog } from '../panel/export-dialog.ts';
import type { ExportDialog } from '../panel/export-dialog.ts';
import type { Saved } from '../panel/export-rows.ts';
import { downloadBlob } from '../panel/hand-out.ts';
import type { PageState } from '../panel/page-state.ts';
import type { KnittedSock } from '../pipeline/result.ts';
import { writeSock } from '../plan/write-sock.ts';
import { surfaceOf } from '../sheet/cloth-surface.ts';
import { drawFlatOutline } from '../sheet/flat-outline.ts';
import { filmPasses, makeFilm } from '../sheet/make-film.ts';
import { writeGlb } from '../sheet/write-glb.ts';
import { writeOutlineSvg } from '../sheet/write-outline-svg.ts';
import { writePassesCsv, writePassesJson } from '../sheet/write-passes.ts';
import { writeStl } from '../sheet/write-stl.ts';
import { linearColour } from '../view/colour.ts';
import type { SockView, Theme } from '../view/sock-view-types.ts';
import { pageWords } from '../words/page-words.ts';
import { client } from '../worker/client.ts';
import { openWorker } from '../worker/open-worker.ts';
import { createFilmSource, type FilmSource } from './film-source.ts';
import type { GrowthDesk } from './growth-desk.ts';
import { clothOf, coloursOf } from './picture-cloth.ts';
import { createPrintPicture } from './print-picture.ts';
import { fileName } from './save-file.ts';
import { createYarnModel } from './yarn-model.ts';

export interface ExportTools {
  readonly state: () => PageState;
  readonly view: SockView | null;
  readonly canvas: HTMLCanvasElement;
  readonly theme: () => Theme;
  readonly growth: GrowthDesk;
}

/** Everything that a sock can be taken away as. */
export function createExportRoom(tools: ExportTools): ExportDialog {
  const { state, view, canvas } = tools, words = pageWords().files.exports;
  let film: { isStopped: boolean; readonly source: FilmSource } | null = null;
  const sock = (): KnittedSock => {
    const { knitted } = state();
    if (knitted === null) throw new Error('no sock to export');
    return knitted;
  };
  return createExportDialog({
    hasPicture: view !== null,
    pictureSize: () => [canvas.clientWidth, canvas.clientHeight],
    savePicture: async (scale, hasGround) => {
      const picture = view?.takePicture(scale, hasGround ? 'themed' : 'none') ?? null;
      return picture === null ? refuse(words.picture.none) : hand(sock(), '', 'png', 'image/png', new Uint8Array(await (await pngOf(picture)).arrayBuffer()));
    },
    saveFilm: async ({ step, framesPerSecond }, screen, onFrame) => {
      const subject = sock(), passes = filmPasses(subject.trace.passes.length - 1, step), source = createFilmSource(subject, tools.growth, screen, tools.theme());
      const run = film = { isStopped: false, source };
      try {
        const bytes = await makeFilm(source.frameAt, {
          passes, hundredths: Math.round(100 / framesPerSecond), isStopped: () => run.isStopped,
          onFrame: (frames, soFar) => { onFrame(frames, passes.length, soFar); },
        });
        if (bytes !== null) return hand(subject, 'growing', 'gif', 'image/gif', bytes);
        return run.isStopped ? null : refuse(words.film.failed);
      } catch (error) {
        return refuse(words.failed(String(error)));
      } finally { source.dispose(); }
    },
    stopFilm: () => {
      if (film === null) return;
      film.isStopped = true;
      film.source.dispose();
    },
    yarn: createYarnModel(state, (subject, what, file) => handBlob(subject, what, 'glb', file)),
    print: createPrintPicture(view, canvas, (file) => handBlob(sock(), 'print', 'png', file)),
    saveOutline: async () => saveOutline(sock()),
    saveModel: (kind) => Promise.resolve(saveModel(state(), kind)),
    saveWork: (kind) => {
      const subject = sock(), text = kind === 'csv' ? writePassesCsv(subject) : writePassesJson(subject);
      return Promise.resolve(hand(subject, 'passes', kind, kind === 'csv' ? 'text/csv' : 'application/json', new TextEncoder().encode(text)));
    },
    saveSock: () => Promise.resolve(hand(sock(), '', 'json', 'application/json', new TextEncoder().encode(writeSock(sock().file)))),
    sizes: ({ posed, knitted }) => {
      if (posed === null || knitted === null) return { glb: null, stl: null };
      // Corners of a cell make two triangles less than they are; each takes 50 bytes in the one, 12 and its points in the other.
      const { cellVertices, cellStart, vertexCount } = clothOf(knitted, posed).fabric, triangles = cellVertices.length - 2 * (cellStart.length - 1);
      return { glb: 12 * triangles + 36 * vertexCount + 1000, stl: 84 + 50 * triangles };
    },
  });
}

function refuse(problem: string): Saved { return { name: null, bytes: 0, problem }; }

function hand(subject: KnittedSock, what: string, ending: string, type: string, bytes: Uint8Array<ArrayBuffer>): Saved {
  return handBlob(subject, what, ending, new Blob([bytes], { type }));
}

function handBlob({ plan }: KnittedSock, what: string, ending: string, file: Blob): Saved {
  const name = `${fileName(plan.name)}${what === '' ? '' : `-${what}`}.${ending}`;
  downloadBlob(name, file);
  return { name, bytes: file.size, problem: null };
}

function pngOf(picture: ImageData): Promise<Blob> {
  const canvas = document.createElement('canvas');
  canvas.width = picture.width;
  canvas.height = picture.height;
  canvas.getContext('2d')?.putImageData(picture, 0, 0);
  return new Promise((settle, fail) => {
    canvas.toBlob((blob) => {
      if (blob === null) fail(new Error('the browser has no room for so large a picture'));
      else settle(blob);
    }, 'image/png');
  });
}

/** Of the sock laid flat, whatever pose is on the page; a worker of its own lays it. */
async function saveOutline(subject: KnittedSock): Promise<Saved> {
  const words = pageWords().files.exports.outline, work = client(openWorker);
  try {
    const outcome = await work.make(subject.file, 'flat', {});
    const outline = outcome.status === 'posed' ? drawFlatOutline(subject.fabric, outcome.posed.pose.positions) : null;
    if (outline === null) return refuse(words.failed);
    const { plan } = subject;
    const text = writeOutlineSvg(outline, { title: plan.name, details: words.details({ ...plan, ...subject.file.gauge }), checkLine: words.checkLine });
    return hand(subject, 'outline', 'svg', 'image/svg+xml', new TextEncoder().encode(text));
  } finally { work.dispose(); }
}

function saveModel({ knitted, posed }: PageState, kind: 'glb' | 'stl'): Saved {
  if (knitted === null || posed === null) throw new Error('no shape to export');
  const { fabric, grid } = clothOf(knitted, posed), surface = surfaceOf(fabric, posed.pose.positions), { name } = posed.pose;
  if (kind === 'stl') return hand(knitted, name, kind, 'model/stl', writeStl(surface, `Heelwright: ${knitted.plan.name}, ${name}`));
  const yarns = coloursOf(knitted).map(linearColour), colours = new Float32Array(3 * fabric.vertexCount);
  for (let v = 0; v < fabric.vertexCount; v++) colours.set(yarns[grid.yarn[fabric.vertexLoop[v]]] ?? yarns[0], 3 * v);
  return hand(knitted, name, kind, 'model/gltf-binary', writeGlb({ ...surface, colours }, knitted.plan.name));
}
