import { knitSock } from '../pipeline/knit-sock.ts';
import { poseSock } from '../pipeline/pose-sock.ts';
import type { Port } from './messages.ts';
import { serve } from './serve.ts';

serve(self as unknown as Port, {
  knit: knitSock,
  // The relaxation runs in one go and yields nowhere: a stale one ends with its worker.
  pose: function* (fabric, pose, options) { return poseSock(fabric, pose, options); },
});
