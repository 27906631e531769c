export { hangUp, setUpBeds } from './beds-pose.ts';
export { setUpWorn } from './worn-pose.ts';
export { relaxHeldInSteps, relaxInSteps, relaxSock } from './relax-sock.ts';
export { interpolateSock, mapShape } from './map-shape.ts';
export type { FreePoseName, Pose, PoseName, PoseStatus, RelaxOptions } from './pose.ts';
