/** CRC-16 as the one-wire parts use it: x¹⁶+x¹⁵+x²+1, bits reflected, start 0 (known as CRC-16/ARC). `123456789` gives BB3D. */
const TABLE = Uint16Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >> 1) ^ 0xa001 : crc >> 1;
  return crc;
});

export const crc16 = (bytes: Uint8Array, from: number, to: number): number => {
  let crc = 0;
  for (let at = from; at < to; at += 1) crc = (crc >> 8) ^ (TABLE[(crc ^ (bytes[at] as number)) & 0xff] as number);
  return crc;
};
