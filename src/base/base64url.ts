/** RFC 4648, section 5: letters that stand in an address as they are. */
const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';

const VALUE_OF = new Map([...LETTERS].map((letter, value) => [letter, value]));

/** Without padding. */
export function writeBase64Url(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 3) {
    const left = Math.min(3, bytes.length - i);
    const group = (bytes[i] << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    for (let letter = 0; letter <= left; letter++) text += LETTERS[(group >> (18 - 6 * letter)) & 63];
  }
  return text;
}

/** The bytes, or null where the text is none that `writeBase64Url` writes: a strange letter, an odd length, bits left over. */
export function readBase64Url(text: string): Uint8Array | null {
  if (text.length % 4 === 1) return null;
  const bytes = new Uint8Array(Math.floor((3 * text.length) / 4));
  let held = 0, bits = 0, at = 0;
  for (const letter of text) {
    const value = VALUE_OF.get(letter);
    if (value === undefined) return null;
    held = (held << 6) | value;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes[at++] = held >> bits;
    held &= (1 << bits) - 1;
  }
  return held === 0 ? bytes : null;
}
