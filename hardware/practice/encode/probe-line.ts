import type { ProbeUse } from '#lib/measure/reading';
import { ascii } from './frame';

/** What a board of ours says of one probe: a number, or the word for why there is none. */
export type ProbeSample = { readonly celsius: number } | { readonly word: ProbeWord };
export const PROBE_WORDS = ['disconnected', 'shorted', 'power-on-value', 'checksum', 'out-of-range', 'error'] as const;
export type ProbeWord = (typeof PROBE_WORDS)[number];

const LETTER: Readonly<Record<ProbeUse, string>> = { lye: 'L', oils: 'O', room: 'R', batter: 'B', mould: 'M' };

/** `P1 L 43.250 C ok*B256` CR LF, as hardware/PROBE-LINE.md lays it out. */
export const probeLine = (use: ProbeUse, sample: ProbeSample): Uint8Array => {
  const [value, word] = 'celsius' in sample ? [sample.celsius.toFixed(3), 'ok'] : ['-', sample.word];
  const body = `P1 ${LETTER[use]} ${value} C ${word}`;
  return ascii(`${body}*${crc(body).toString(16).toUpperCase().padStart(4, '0')}\r\n`);
};

/** CRC-16 of the one-wire parts: x¹⁶+x¹⁵+x²+1, lowest bit first, start 0. */
const crc = (text: string): number => {
  let sum = 0;
  for (let i = 0; i < text.length; i += 1) {
    sum ^= text.charCodeAt(i);
    for (let bit = 0; bit < 8; bit += 1) sum = (sum & 1) === 0 ? sum >> 1 : (sum >> 1) ^ 0xa001;
  }
  return sum;
};
