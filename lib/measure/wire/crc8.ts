/** CRC-8 as the one-wire sensors use it: x⁸+x⁵+x⁴+1, bits reflected, start 0. `123456789` gives A1. */
const TABLE = Uint8Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >> 1) ^ 0x8c : crc >> 1;
  return crc;
});

export const crc8 = (bytes: Uint8Array, from: number, to: number): number => {
  let crc = 0;
  for (let at = from; at < to; at += 1) crc = TABLE[crc ^ (bytes[at] as number)] as number;
  return crc;
};
