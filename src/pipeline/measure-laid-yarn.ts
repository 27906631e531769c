import { measureYarn, type LaidYarn } from '../measure/measure-yarn.ts';
import type { PoseName } from '../shape/pose.ts';
import { laySockYarn } from './lay-sock-yarn.ts';
import type { KnittedSock } from './result.ts';

/** Yarn that a sock takes in a pose at rest, along its centre lines; `positions` has three entries a vertex of the sock's fabric, mm. */
export function measureLaidYarn(sock: KnittedSock, positions: Float64Array, pose: PoseName): LaidYarn[] {
  return measureYarn(sock.plan, sock.grid, laySockYarn(sock, positions, pose));
}
