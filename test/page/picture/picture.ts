import { knitSock } from '../../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../../src/pipeline/pose-sock.ts';
import type { KnittedSock, PosedSock } from '../../../src/pipeline/result.ts';
import type { SockFile } from '../../../src/plan/sock-file.ts';
import type { PoseName } from '../../../src/shape/pose.ts';
import * as scales from '../../../src/view/colour-scale.ts';
import { createSockView } from '../../../src/view/sock-view.ts';
import type { Companion, HoveredLoop, SockView } from '../../../src/view/sock-view-types.ts';
import '../../../src/styles/page.css';

/** The picture without panels and worker, for tests of what it alone can do. */
export interface PictureBench {
  readonly view: SockView;
  readonly scales: typeof scales;
  /** What the pointer rests on. */
  hovered: HoveredLoop | null;
  contexts: string[];
  make(file: SockFile, pose: PoseName): { readonly sock: KnittedSock; readonly posed: PosedSock };
  companionOf(made: { readonly sock: KnittedSock; readonly posed: PosedSock }, label: string): Companion;
}

declare global {
  interface Window { picture?: PictureBench }
}

function make(file: SockFile, pose: PoseName): { readonly sock: KnittedSock; readonly posed: PosedSock } {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  return { sock, posed: poseSock(sock, pose) };
}

const isDark = new URLSearchParams(location.search).get('theme') === 'dark';
const view = createSockView(document.getElementById('sock') as HTMLCanvasElement, isDark ? 'dark' : 'light');
document.documentElement.dataset['theme'] = isDark ? 'dark' : 'light';
const bench: PictureBench = {
  view, scales, hovered: null, contexts: [], make,
  companionOf: ({ sock, posed }, label) => ({
    fabric: posed.part?.fabric ?? sock.fabric, grid: posed.part?.grid ?? sock.grid, yarnColours: sock.plan.yarns.map(({ colour }) => colour),
    positions: posed.pose.positions, pose: posed.pose.name, label,
    around: { holding: posed.part?.holding ?? null, castOnColour: null, body: posed.body },
  }),
};
view.onHover((hovered) => { bench.hovered = hovered; });
view.onContext((state) => { bench.contexts.push(state); });
window.picture = bench;
