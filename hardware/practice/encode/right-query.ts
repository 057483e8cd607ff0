import { ascii, digits, sign } from './frame';
import type { ScaleFrame } from './frame';

/**
 * Figure right-justified in ten, space, unit up to five characters left-justified, space, `?` when unstable else blank, CR LF; trailing
 * blanks are not sent. The layout has no mark for out of range; such scales show dashes, and so does this frame.
 */
export const rightQuery = (frame: ScaleFrame): Uint8Array => {
  if (frame.range !== 'in') return ascii(`${'-'.repeat(8).padStart(10)} ${frame.unit.padEnd(5)} ?\r\n`);
  const line = `${`${sign(frame, '')}${digits(frame)}`.padStart(10)} ${frame.unit.padEnd(5)} ${frame.motion === 'stable' ? '' : '?'}`;
  return ascii(`${line.trimEnd()}\r\n`);
};
