import { readBase64Url, writeBase64Url } from '../base/base64url.ts';
import { crc32 } from '../base/crc32.ts';

/** First letter of a link's text, which says how the rest is to be read; later ways have later letters. */
const WAY = 'a';
/** Longer ones are neither made nor read: mail and chat cut them. A usual sock has about 500 letters. */
export const LONGEST_LINK_TEXT = 8000;

const CHECK_BYTES = 4;

export type LinkFault = 'damaged' | 'newer' | 'too-long';
export type ReadLink = { readonly packed: Uint8Array<ArrayBuffer>; readonly fault: null } | { readonly packed: null; readonly fault: LinkFault };

/** Of the way's letter and what is packed: any one letter changed, in whatever place, changes it. */
function checkOf(packed: Uint8Array): number {
  return crc32(Uint8Array.from([WAY.charCodeAt(0), ...packed]));
}

/** Packed bytes as letters that an address may hold: the way, and in base64url a checksum and the bytes. */
export function writeLinkText(packed: Uint8Array): string {
  const bytes = new Uint8Array(CHECK_BYTES + packed.length);
  new DataView(bytes.buffer).setUint32(0, checkOf(packed));
  bytes.set(packed, CHECK_BYTES);
  return WAY + writeBase64Url(bytes);
}

export function readLinkText(text: string): ReadLink {
  const refuse = (fault: LinkFault): ReadLink => ({ packed: null, fault });
  if (text.length > LONGEST_LINK_TEXT) return refuse('too-long');
  const way = text.charAt(0);
  if (way > WAY && way <= 'z') return refuse('newer');
  const bytes = way === WAY ? readBase64Url(text.slice(1)) : null;
  if (bytes === null || bytes.length <= CHECK_BYTES) return refuse('damaged');
  const packed = bytes.slice(CHECK_BYTES);
  return new DataView(bytes.buffer).getUint32(0) === checkOf(packed) ? { packed, fault: null } : refuse('damaged');
}
