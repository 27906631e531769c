export { relaxSock } from './relax-sock.ts';
export type { Pose, PoseName, PoseStatus, RelaxOptions } from './pose.ts';
