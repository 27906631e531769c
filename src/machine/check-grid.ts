import { LOOP } from './codes.ts';
import type { StitchGrid } from './grid.ts';

/**
 * The laws of a stitch grid: every stitch is drawn through once, or closed off, or live; parents
 * and children agree; the yarn is one path for each length; a wrap lies round a held loop and is
 * knitted off with it. Returns what is broken, empty when all holds.
 */
export function checkGrid(grid: StitchGrid): string[] {
  return [...checkFamilies(grid), ...checkEnds(grid), ...checkYarn(grid), ...checkWraps(grid)];
}

function checkFamilies(grid: StitchGrid): string[] {
  const broken: string[] = [];
  const drawn = new Int32Array(grid.loopCount);
  for (let i = 0; i < grid.loopCount; i++) {
    const start = grid.parentStart[i];
    const end = grid.parentStart[i + 1];
    if (grid.kind[i] === LOOP.knit && start === end) broken.push(`loop ${i} was drawn through nothing`);
    for (let k = start; k < end; k++) {
      const parent = grid.parents[k];
      drawn[parent] = (drawn[parent]) + 1;
      if (grid.child[parent] !== i) broken.push(`loop ${parent} does not know its child ${i}`);
      if (parent >= i) broken.push(`loop ${i} was drawn through loop ${parent}, which is younger`);
    }
  }
  drawn.forEach((times, i) => {
    if (times > 1) broken.push(`loop ${i} is drawn through ${times} times`);
    if (times === 0 && grid.child[i] !== -1) broken.push(`loop ${i} names a child that was not drawn through it`);
  });
  return broken;
}

function checkEnds(grid: StitchGrid): string[] {
  const live = new Set(grid.live);
  const broken: string[] = [];
  for (let i = 0; i < grid.loopCount; i++) {
    const isClosing = grid.kind[i] === LOOP.graft || grid.kind[i] === LOOP.bindOff;
    const isEnded = grid.child[i] !== -1;
    if (isEnded && live.has(i)) broken.push(`loop ${i} is live, yet drawn through`);
    if (!isEnded && !live.has(i) && !isClosing) broken.push(`loop ${i} is neither drawn through nor live`);
  }
  return broken;
}

function checkYarn(grid: StitchGrid): string[] {
  const broken: string[] = [];
  for (let i = 0; i < grid.loopCount; i++) {
    const after = grid.yarnAfter[i];
    if (after < 0) continue;
    if (after <= i) broken.push(`the yarn runs from loop ${i} back to loop ${after}`);
    if (grid.yarnBefore[after] !== i) broken.push(`loops ${i} and ${after} disagree about the yarn between them`);
    if (grid.yarn[after] !== grid.yarn[i]) broken.push(`the yarn changes between loops ${i} and ${after} without a break`);
  }
  return broken;
}

function checkWraps(grid: StitchGrid): string[] {
  const broken: string[] = [];
  for (let i = 0; i < grid.loopCount; i++) {
    if (grid.kind[i] !== LOOP.wrap) continue;
    const host = grid.wrapHost[i];
    if (host < 0) broken.push(`wrap ${i} lies round nothing`);
    else if (grid.child[host] !== grid.child[i]) broken.push(`wrap ${i} is not knitted off with loop ${host}`);
  }
  return broken;
}
