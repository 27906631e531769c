import { describe, expect, it } from 'vitest';
import { BED } from '../../src/machine/codes.ts';
import { gridAtPass } from '../../src/machine/grid-at-pass.ts';
import { findLoopStays } from '../../src/machine/loop-stays.ts';
import { GROWING, knitOrThrow } from '../pipeline/growing-socks.ts';

describe.each(GROWING)('where loops hang: %s', (_, file) => {
  // The machine itself, stopped after each pass, tells which loops are on which needles.
  it('is where the machine has them after every pass', () => {
    const { program, grid, trace, fabric } = knitOrThrow(file), stays = findLoopStays(program, grid, trace);
    for (let pass = 0; pass < trace.passes.length; pass++) {
      const piece = gridAtPass(program, grid, trace, pass), truth = new Map<number, string>(), found = new Map<number, string>();
      piece.grid.live.forEach((loop, k) => {
        const at = piece.liveNeedles[k];
        if (at !== null && fabric.loopVertex[loop] >= 0) truth.set(loop, `${at.bed} ${at.needle}`);
      });
      for (let loop = 0; loop < grid.loopCount; loop++) {
        if (fabric.loopVertex[loop] < 0 || grid.pass[loop] > pass || stays.goneAt[loop] <= pass) continue;
        const own = Array.from({ length: stays.start[loop + 1] - stays.start[loop] }, (__, k) => stays.start[loop] + k);
        const now = own.filter((k) => stays.pass[k] <= pass).at(-1) ?? -1;
        found.set(loop, `${stays.bed[now] === BED.front ? 'front' : 'back'} ${stays.needle[now]}`);
      }
      expect(found).toEqual(truth);
    }
  });
});
