const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value >>> 0;
});

/** The checksum of a zip file's entries, CRC-32 of ISO 3309, continued from what came before. */
export function crc32(bytes: Uint8Array, before = 0): number {
  let value = ~before >>> 0;
  for (const byte of bytes)
    value = ((TABLE[(value ^ byte) & 0xff] as number) ^ (value >>> 8)) >>> 0;
  return ~value >>> 0;
}
