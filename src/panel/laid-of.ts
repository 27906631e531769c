import type { KnittedSock } from '../pipeline/result.ts';
import type { LaidState, PageState } from './page-state.ts';

const keys = new WeakMap<KnittedSock, string>();

/** All of a sock that decides how much yarn lies in its shape: its file without names and colours. */
export function laidKey(sock: KnittedSock): string {
  const { name: _name, yarns, ...file } = sock.file;
  const key = keys.get(sock) ?? JSON.stringify([file, yarns?.map(({ name: _yarn, colour: _colour, ...yarn }) => yarn)]);
  keys.set(sock, key);
  return key;
}

/** What is known of the yarn in the sock that is shown, in whatever pose at rest it was measured last. */
export function laidOf({ knitted, laid = null }: Pick<PageState, 'knitted' | 'laid'>): LaidState | null {
  return laid !== null && knitted !== null && laid.key === laidKey(knitted) ? laid : null;
}
