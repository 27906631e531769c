import type { Keyframe } from './hang-at.ts';

/** The keyframes of a growing sock, by pass. */
export interface KeyframeBook {
  /** In the order of their passes. */
  readonly keyframes: readonly Keyframe[];
  /** Of two at one pass the better stays, of equals the newer. */
  add(keyframe: Keyframe): void;
  /** The last one at or before a pass and the first at or after it, the same twice where there is one; null outside all of them. */
  around(pass: number): readonly [Keyframe, Keyframe] | null;
}

export function createKeyframeBook(): KeyframeBook {
  const keyframes: Keyframe[] = [];
  /** The first entry at or after a pass. */
  const find = (pass: number): number => {
    let low = 0, high = keyframes.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (keyframes[middle].pass < pass) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  return {
    keyframes,
    add: (keyframe) => {
      const at = find(keyframe.pass), isThere = keyframes[at]?.pass === keyframe.pass;
      if (isThere && keyframes[at].quality > keyframe.quality) return;
      keyframes.splice(at, isThere ? 1 : 0, keyframe);
    },
    around: (pass) => {
      const at = find(pass), after = keyframes[at], before = after?.pass === pass ? after : keyframes[at - 1];
      return before === undefined || after === undefined ? null : [before, after];
    },
  };
}
