import { makeFootForm } from '../foot/foot-form.ts';
import type { FootForm } from '../foot/foot-form.ts';
import type { Body } from '../foot/round-cones.ts';
import { sampleFootDistance } from '../foot/sample-distance.ts';
import type { KnittedSock } from './result.ts';

/** A foot, and its distance for quick looking up. */
interface SampledFoot { readonly foot: FootForm; readonly skin: Body }

/** The last foot asked for: most changes of a sock leave the foot as it is, and shaping one takes as long as a good part of a pose. */
let last: { readonly key: string; readonly sampled: SampledFoot } | null = null;

/** The form of the foot that a sock was planned for. */
export function footOf(sock: KnittedSock): FootForm { return sampledFootOf(sock).foot; }

/** The same with its distance looked up. What comes out hangs on the measures alone. */
export function sampledFootOf({ foot: { body } }: KnittedSock): SampledFoot {
  const key = JSON.stringify(body);
  if (last?.key === key) return last.sampled;
  const foot = makeFootForm(body), sampled = { foot, skin: sampleFootDistance(foot) };
  last = { key, sampled };
  return sampled;
}
