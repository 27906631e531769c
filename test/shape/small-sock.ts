import { buildFabric, stitchSizeOf } from '../../src/fabric/build-fabric.ts';
import type { Fabric } from '../../src/fabric/fabric.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import { buildProgram } from '../../src/plan/build-program.ts';
import { mirrorProgram } from '../../src/plan/mirror-program.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

/** An invented sock in a thick yarn: few loops, an adult's size. */
export const SMALL_SOCK: SockFile = {
  gauge: { stitchesPer10cm: 14, rowsPer10cm: 20 },
  counts: { stitches: 36, legPasses: 16, footPasses: 48 },
  heel: { turnDownWidth: 4 },
};

export function knitSmallSock(changes: Partial<SockFile> = {}, isMirrored = false): Fabric {
  const { plan, problems } = planSock({ ...SMALL_SOCK, ...changes });
  if (plan === null) throw new Error(JSON.stringify(problems));
  const program = buildProgram(plan);
  const { grid, fault } = knitProgram(isMirrored ? mirrorProgram(program) : program);
  if (grid === null) throw new Error(JSON.stringify(fault));
  return buildFabric(grid, stitchSizeOf(plan));
}
