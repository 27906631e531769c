import { describe, expect, it } from 'vitest';
import { LOOP } from '../../src/machine/codes.ts';
import { shadePasses } from '../../src/main/shade-passes.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { passScale, placeOnScale } from '../../src/view/colour-scale.ts';

const { sock } = knitSock({ gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 64, legPasses: 50, footPasses: 128 } });
const { grid, fabric, trace } = sock!, lastPass = trace.passes.length - 1, values = shadePasses(fabric.vertexLoop, grid, lastPass);
const valueOf = (loop: number): number => values[fabric.vertexLoop.indexOf(loop)];

describe('colours by pass', () => {
  it('keep to the order of knitting, within the shade of a row', () => {
    expect(Math.max(...Array.from(values, (value, v) => Math.abs(value - grid.pass[fabric.vertexLoop[v]])))).toBeLessThan(0.031 * lastPass);
  });

  it('are one colour for all stitches of a pass', () => {
    const byPass = new Map<number, Set<number>>();
    values.forEach((value, v) => { const pass = grid.pass[fabric.vertexLoop[v]]; byPass.set(pass, (byPass.get(pass) ?? new Set()).add(value)); });
    expect([...byPass.values()].filter((colours) => colours.size > 1)).toEqual([]);
    expect(byPass.size).toBe(lastPass + 1);
  });

  it('of a stitch and the one it was drawn through lie apart, by two fifths of a step of the scale, unless it waited in hold', () => {
    const scale = passScale(lastPass);
    let told = 0, all = 0;
    for (let loop = 0; loop < grid.loopCount; loop++) {
      const parent = grid.parents[grid.parentStart[loop]];
      if (grid.kind[loop] !== LOOP.knit || grid.parentStart[loop] === grid.parentStart[loop + 1] || grid.pass[loop] - grid.pass[parent] > 2) continue;
      all += 1;
      if (Math.abs(placeOnScale(scale, valueOf(loop)) - placeOnScale(scale, valueOf(parent))) > 0.4) told += 1;
    }
    expect(all).toBeGreaterThan(6000);
    // At the scale's ends the lighter, or the darker, of two has no place to go.
    expect(told / all).toBeGreaterThan(0.93);
  });
});
