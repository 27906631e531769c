import type { Keyframe, KeyQuality } from './hang-at.ts';

/** The keyframes of a growing sock, by pass. */
export interface KeyframeBook {
  /** In the order of their passes. */
  readonly keyframes: readonly Keyframe[];
  /** Of two at one pass the better stays, of equals the newer. */
  add(keyframe: Keyframe): void;
  /**
   * Of those of some quality, the last one at or before a pass and the first at or after it, the same twice where
   * there is one; null outside all of them. `isAlike`: of those an even number of passes away.
   */
  around(pass: number, least: KeyQuality, isAlike: boolean): readonly [Keyframe, Keyframe] | null;
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
    around: (pass, least, isAlike) => {
      const counts = (keyframe: Keyframe): boolean => keyframe.quality >= least && !(isAlike && (keyframe.pass - pass) % 2 !== 0);
      let above = find(pass), below = keyframes[above]?.pass === pass ? above : above - 1;
      while (above < keyframes.length && !counts(keyframes[above])) above++;
      while (below >= 0 && !counts(keyframes[below])) below--;
      const before = keyframes[below], after = keyframes[above];
      return before === undefined || after === undefined ? null : [before, after];
    },
  };
}
