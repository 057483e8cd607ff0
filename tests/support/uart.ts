/** Bits on a serial line, so that a wrong speed or parity is the real thing and not a guess at what it looks like. */
export interface Line {
  readonly baudRate: number;
  readonly dataBits: 7 | 8;
  readonly parity: 'none' | 'even' | 'odd';
}

const ones = (byte: number): number => byte.toString(2).replaceAll('0', '').length;

/** The levels a sender makes, one per bit of its own speed: start, data from the lowest bit, parity, stop. */
const levels = (bytes: Uint8Array, line: Line): number[] => {
  const bits: number[] = [1, 1, 1];
  for (const whole of bytes) {
    const byte = line.dataBits === 7 ? whole & 0x7f : whole;
    bits.push(0);
    for (let bit = 0; bit < line.dataBits; bit += 1) bits.push((byte >> bit) & 1);
    if (line.parity !== 'none') bits.push((ones(byte) + (line.parity === 'odd' ? 1 : 0)) % 2);
    bits.push(1);
  }
  return [...bits, 1, 1, 1];
};

/**
 * What a receiver makes of it: waits for a falling edge, samples in the middle of its own bits, and hands over the byte whether or
 * not the stop bit was there, as a port that checks nothing does.
 */
export const overLine = (bytes: Uint8Array, sender: Line, receiver: Line): Uint8Array => {
  const sent = levels(bytes, sender);
  const perBit = sender.baudRate / receiver.baudRate;
  const level = (time: number): number => sent[Math.floor(time)] ?? 1;
  const got: number[] = [];
  const frameBits = receiver.dataBits + (receiver.parity === 'none' ? 0 : 1);
  let time = 0;
  while (time < sent.length) {
    if (level(time) === 1) {
      time += perBit / 16;
      continue;
    }
    let byte = 0;
    for (let bit = 0; bit < receiver.dataBits; bit += 1) byte += level(time + (bit + 1.5) * perBit) << bit;
    got.push(byte);
    time += (frameBits + 1.5) * perBit;
  }
  return Uint8Array.from(got);
};
