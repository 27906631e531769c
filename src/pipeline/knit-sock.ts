import { buildFabric, stitchSizeOf } from '../fabric/build-fabric.ts';
import { checkFabric, countEuler } from '../fabric/check-fabric.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { checkGrid } from '../machine/check-grid.ts';
import { knitProgram } from '../machine/knit-program.ts';
import { estimateParts, useOf } from '../measure/estimate-yarn.ts';
import { findCautions } from '../measure/find-cautions.ts';
import { measureRest } from '../measure/measure-rest.ts';
import { buildProgram } from '../plan/build-program.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { KnitOutcome } from './result.ts';

/** An invariant of ours is broken: our bug, never the person's. */
function assertLaws(stage: string, broken: readonly string[]): void {
  if (broken.length > 0) throw new Error(`${stage}: ${broken.slice(0, 3).join('; ')}${broken.length > 3 ? `; and ${broken.length - 3} more` : ''}`);
}

/** A sock is a disk whose one boundary is its cast-on. */
function checkClosed(fabric: Fabric, stitches: number): string[] {
  const euler = countEuler(fabric);
  const boundaries = fabric.boundaryStart.length - 1;
  const isWhole = euler === 1 && boundaries === 1 && fabric.boundaryVertices.length === stitches;
  return isWhole ? [] : [`a sock has Euler number 1 and one boundary of ${stitches} loops; this has ${euler}, and ${boundaries} of ${fabric.boundaryVertices.length} in all`];
}

/**
 * From a sock file to the knitted cloth, without its relaxed shapes: plan, program, trace, grid,
 * fabric, rest measures, yarn, cautions. A file that cannot be knitted gives its problems instead.
 * Throws only when a law of ours is broken.
 */
export function knitSock(file: SockFile): KnitOutcome {
  const { plan, derivations, foot, problems } = planSock(file);
  if (plan === null) return { sock: null, problems };
  const program = buildProgram(plan);
  const { fault, grid, trace } = knitProgram(program);
  if (fault !== null) {
    throw new Error(`machine: pass ${fault.pass}, ${fault.bed ?? 'no'} bed, needle ${fault.needle ?? '-'}: ${fault.reason}`);
  }
  assertLaws('grid', checkGrid(grid));
  const fabric = buildFabric(grid, stitchSizeOf(plan));
  assertLaws('fabric', [...checkFabric(fabric), ...checkClosed(fabric, plan.stitches)]);
  const yarnParts = estimateParts(plan, grid);
  const sock = {
    file, plan, derivations, foot, program, trace, grid, fabric,
    rest: measureRest(plan),
    yarn: yarnParts.map((parts, yarn) => useOf(plan.yarns[yarn], parts)), yarnParts,
    cautions: findCautions(plan, foot, file.foot),
  };
  return { sock, problems };
}
