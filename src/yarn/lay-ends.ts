import { LOOP } from '../machine/codes.ts';
import type { Closing } from './close-frames.ts';
import { layBindOff } from './lay-bind-off.ts';
import { layCastOn } from './lay-cast-on.ts';
import type { LayDesk } from './lay-desk.ts';
import { layGraft } from './lay-graft.ts';
import { laySeam, turnEdgesIn } from './lay-seam.ts';
import { layTail } from './lay-tails.ts';
import { PART } from './yarn-lay.ts';

/** Lays what begins and ends a fabric, its loops being laid: the foot of its cast-on, graft, bind-off, seam, and all tails. */
export function layEnds(desk: LayDesk, closings: readonly Closing[]): void {
  const { grid, thread } = desk;
  for (const closing of closings) {
    const piece = thread.loopPiece[closing.loop];
    if (piece >= 0) (thread.part[piece] === PART.graft ? layGraft : layBindOff)(desk, piece, closing);
  }
  if (thread.part.includes(PART.seam)) turnEdgesIn(desk);
  for (let piece = 0; piece < thread.pieceCount; piece++) {
    switch (thread.part[piece]) {
      case PART.loop: if (grid.kind[thread.loop[piece]] === LOOP.castOn) layCastOn(desk, piece); break;
      case PART.seam: laySeam(desk, piece); break;
      case PART.tail: layTail(desk, piece, closings); break;
    }
  }
}
