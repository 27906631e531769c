import type { Fabric } from '../fabric/fabric.ts';
import { measurePose } from '../measure/measure-pose.ts';
import type { PoseName, RelaxOptions } from '../shape/pose.ts';
import { relaxSock } from '../shape/relax-sock.ts';
import type { PosedSock } from './result.ts';

/** Relaxes a fabric into a pose and measures it there. */
export function poseSock(fabric: Fabric, name: PoseName, options: RelaxOptions = {}): PosedSock {
  const pose = relaxSock(fabric, name, options);
  const { measures, lines } = measurePose(fabric, pose.positions);
  return { pose, measures, lines };
}
