import { encode, probe, still } from './encode-frames';

const text = (bytes: Uint8Array): string => new TextDecoder('latin1').decode(bytes);

/** A frame of `header-comma` with a stable weight in grams. */
export const weighed = (grams: number): string => text(encode('header-comma', still(Math.round(grams * 100), 2)));

/** A good line of our probes; `letter` names the vessel. */
export const probed = (celsius: number, letter = 'L'): string => text(probe(letter, celsius.toFixed(3), 'C', 'ok'));
