/** The polynomial of ISO 3309 and ITU-T V.42, its bits reversed. */
const POLYNOMIAL = 0xedb88320;

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = (rest & 1) === 1 ? (rest >>> 1) ^ POLYNOMIAL : rest >>> 1;
  return rest;
});

/** CRC-32 of ISO 3309, as in PNG and gzip: any damage within 32 bits in a row changes it. */
export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (let i = 0; i < bytes.length; i++) crc = (crc >>> 8) ^ TABLE[(crc ^ bytes[i]) & 0xff];
  return (crc ^ 0xffffffff) >>> 0;
}
