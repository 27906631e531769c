import type { Saved } from '../panel/export-rows.ts';
import type { YarnHooks, YarnSize } from '../panel/export-yarn-row.ts';
import type { PageState } from '../panel/page-state.ts';
import type { KnittedSock, PosedSock } from '../pipeline/result.ts';
import { LARGE_GLB_BYTES, MOST_GLB_BYTES, writeYarnGlb, yarnGlbBytes, type YarnGlbOptions } from '../sheet/write-yarn-glb.ts';
import type { TubeDetail } from '../sheet/yarn-tubes.ts';
import { linearColour } from '../view/colour.ts';
import { pauseForPost, SLICE_MS } from '../worker/slices.ts';
import { layYarn } from '../yarn/lay-yarn.ts';
import { threadYarn } from '../yarn/thread-yarn.ts';
import type { YarnThread } from '../yarn/yarn-lay.ts';
import { clothOf, diametersOf } from './picture-cloth.ts';

/** Finest first: the first one that is small enough is told. */
const DETAILS: readonly TubeDetail[] = ['fine', 'middle', 'coarse'];

const optionsOf = ({ plan }: KnittedSock, detail: TubeDetail): YarnGlbOptions => ({
  detail, name: plan.name, yarns: plan.yarns.map(({ name, colour }) => ({ name, colour: linearColour(colour) })),
});

/** The yarn of what is in the picture: on the beds of as much as is knitted. */
function threadOf(sock: KnittedSock, posed: PosedSock): YarnThread {
  return threadYarn(clothOf(sock, posed).grid, { upToPass: posed.part?.pass ?? null });
}

/** The file in pieces, made in slices so that the page goes on answering; null where it was stopped. */
async function makeFile(sock: KnittedSock, posed: PosedSock, detail: TubeDetail, isStopped: () => boolean, onProgress: (share: number) => void): Promise<Blob | null> {
  const { fabric, grid } = clothOf(sock, posed), thread = threadOf(sock, posed), options = optionsOf(sock, detail), bytes = yarnGlbBytes(thread, options);
  const diameterMm = Float64Array.from(diametersOf(sock));
  const steps = writeYarnGlb(layYarn({ fabric, grid, thread, diameterMm }, posed.pose.positions, { isFlat: posed.pose.name === 'flat' }), options), parts: Blob[] = [];
  let made = 0, sliceEnd = performance.now() + SLICE_MS;
  for (let step = steps.next(); ; step = steps.next()) {
    // A Blob may lie elsewhere than in the page's memory.
    if (step.done === true) return new Blob([step.value, ...parts], { type: 'model/gltf-binary' });
    parts.push(new Blob([step.value]));
    made += step.value.length;
    if (performance.now() < sliceEnd) continue;
    onProgress(made / bytes);
    await pauseForPost();
    if (isStopped()) return null;
    sliceEnd = performance.now() + SLICE_MS;
  }
}

/** The sock in the picture as tubes of yarn. `hand` gives the file to the browser's downloads. */
export function createYarnModel(state: () => PageState, hand: (sock: KnittedSock, what: string, file: Blob) => Saved): YarnHooks {
  let known: { readonly sock: KnittedSock; readonly posed: PosedSock; readonly sizes: Record<TubeDetail, number>; readonly loops: number } | null = null;
  let run: { isStopped: boolean } | null = null;
  const measure = (sock: KnittedSock, posed: PosedSock): NonNullable<typeof known> => {
    if (known?.sock === sock && known.posed === posed) return known;
    const thread = threadOf(sock, posed), of = (detail: TubeDetail): number => yarnGlbBytes(thread, optionsOf(sock, detail));
    return known = { sock, posed, sizes: { coarse: of('coarse'), middle: of('middle'), fine: of('fine') }, loops: clothOf(sock, posed).fabric.vertexCount };
  };
  return {
    size: ({ knitted, posed }, detail): YarnSize | null => {
      if (knitted === null || posed === null) return null;
      const { sizes, loops } = measure(knitted, posed), bytes = sizes[detail], verdict = bytes > MOST_GLB_BYTES ? 'too-large' : bytes > LARGE_GLB_BYTES ? 'large' : 'usual';
      const most = verdict === 'too-large' ? MOST_GLB_BYTES : LARGE_GLB_BYTES;
      return { loops, bytes, verdict, instead: DETAILS.find((other) => sizes[other] <= most) ?? null };
    },
    save: async (detail, onProgress) => {
      const { knitted, posed } = state(), own = run = { isStopped: false };
      if (knitted === null || posed === null) throw new Error('no shape to export');
      const file = await makeFile(knitted, posed, detail, () => own.isStopped, onProgress);
      return file === null ? null : hand(knitted, `${posed.pose.name}-yarn`, file);
    },
    stop: () => { if (run !== null) run.isStopped = true; },
  };
}
