import { adviseInSteps } from '../choose/advise-sock.ts';
import { gradeSock } from '../choose/grade-sock.ts';
import { startGrower } from '../pipeline/grow-sock.ts';
import { knitSock } from '../pipeline/knit-sock.ts';
import { measureLaidYarn } from '../pipeline/measure-laid-yarn.ts';
import { poseInSteps } from '../pipeline/pose-sock.ts';
import type { Port } from './messages.ts';
import { serve } from './serve.ts';

serve(self as unknown as Port, { knit: knitSock, pose: poseInSteps, weigh: measureLaidYarn, grade: gradeSock, advise: adviseInSteps, grow: startGrower });
