/** 16 hexadecimal digits that tell one list of numbers from another, to the bit (FNV-1a over 32-bit words, twice, on little-endian machines). */
export function fingerprint(numbers: Float64Array): string {
  const words = new Uint32Array(numbers.slice().buffer);
  let forward = 0x811c9dc5, backward = 0x811c9dc5;
  for (let k = 0; k < words.length; k++) {
    forward = Math.imul(forward ^ words[k], 0x01000193);
    backward = Math.imul(backward ^ words[words.length - 1 - k], 0x01000193);
  }
  return [forward, backward].map((half) => (half >>> 0).toString(16).padStart(8, '0')).join('');
}
