import { runToEnd } from '../../../src/base/run-to-end.ts';
import { createGrower } from '../../../src/pipeline/grow-sock.ts';
import { createSockHanger } from '../../../src/pipeline/hang-sock.ts';
import { knitSock } from '../../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../../src/pipeline/pose-sock.ts';
import type { KnittedSock, PosedSock } from '../../../src/pipeline/result.ts';
import type { SockFile } from '../../../src/plan/sock-file.ts';
import type { PoseName } from '../../../src/shape/pose.ts';
import * as scales from '../../../src/view/colour-scale.ts';
import { createSockView } from '../../../src/view/sock-view.ts';
import type { Companion, GrowthFrame, HoveredLoop, SockView } from '../../../src/view/sock-view-types.ts';
import '../../../src/styles/page.css';

/** The picture without panels and worker, for tests of what it alone can do. */
export interface PictureBench {
  readonly view: SockView;
  readonly scales: typeof scales;
  /** What the pointer rests on. */
  hovered: HoveredLoop | null;
  contexts: string[];
  make(file: SockFile, pose: PoseName): { readonly sock: KnittedSock; readonly posed: PosedSock };
  /** A sock's growth with all its keyframes made; `isQuick`: its shapes hung up only, not relaxed. */
  grow(file: SockFile, isQuick?: boolean): Growing;
  companionOf(made: { readonly sock: KnittedSock; readonly posed: PosedSock }, label: string): Companion;
}

export interface Growing { readonly sock: KnittedSock; readonly lastPass: number; frameAt(pass: number): GrowthFrame }

declare global {
  interface Window { picture?: PictureBench }
}

function make(file: SockFile, pose: PoseName): { readonly sock: KnittedSock; readonly posed: PosedSock } {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  return { sock, posed: poseSock(sock, pose) };
}

function grow(file: SockFile, isQuick = false): Growing {
  const { sock } = knitSock(file);
  if (sock === null) throw new Error('the sock cannot be knitted');
  const hanger = createSockHanger(sock), grower = createGrower(sock, hanger.growth, hanger.book), attention = { pass: 0, isResting: false };
  // The shape that is looked at first is relaxed in any case.
  let relaxed = 0;
  for (let task = grower.next(attention); task !== null && !(isQuick && relaxed > 0 && task.quality > 0); task = grower.next(attention)) {
    if (task.quality > 0) relaxed += 1;
    runToEnd(grower.make(task));
  }
  return {
    sock, lastPass: hanger.growth.lastPass,
    frameAt: (pass) => {
      const hung = hanger.hangAt(pass);
      if (hung === null) throw new Error('no keyframes');
      return { ...hung, cloth: hanger.cloth, grid: sock.grid, yarnColours: sock.plan.yarns.map(({ colour }) => colour) };
    },
  };
}

const isDark = new URLSearchParams(location.search).get('theme') === 'dark';
const view = createSockView(document.getElementById('sock') as HTMLCanvasElement, isDark ? 'dark' : 'light');
document.documentElement.dataset['theme'] = isDark ? 'dark' : 'light';
const bench: PictureBench = {
  view, scales, hovered: null, contexts: [], make, grow,
  companionOf: ({ sock, posed }, label) => ({
    fabric: posed.part?.fabric ?? sock.fabric, grid: posed.part?.grid ?? sock.grid, yarnColours: sock.plan.yarns.map(({ colour }) => colour),
    positions: posed.pose.positions, pose: posed.pose.name, label,
    around: { holding: posed.part?.holding ?? null, castOnColour: null, body: posed.body },
  }),
};
view.onHover((hovered) => { bench.hovered = hovered; });
view.onContext((state) => { bench.contexts.push(state); });
window.picture = bench;
