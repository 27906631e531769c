import type { KnittedSock } from './result.ts';

/** The pass after which a sock is shown on the beds when none is named: the heel nearly turned, most of the pouch hanging, the last stitches waiting. */
export function usualPass({ trace }: Pick<KnittedSock, 'trace'>): number {
  const last = trace.passes.map(({ section }) => section).lastIndexOf('heel-out');
  return last > 0 ? last - 1 : trace.passes.length - 1;
}
