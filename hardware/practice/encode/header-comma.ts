import { ascii, digits, sign } from './frame';
import type { ScaleFrame } from './frame';

/**
 * `HH , s dddddddd uuu CR LF`: ST stable, US unstable, OL out of range; sign and figure nine characters, zeros in front; unit three
 * characters, right-justified. Out of range the figure is all nines, as the manual prints it.
 */
export const headerComma = (frame: ScaleFrame): Uint8Array => {
  const unit = frame.unit.padStart(3);
  if (frame.range !== 'in') return ascii(`OL,${frame.range === 'over' ? '+' : '-'}9999999.9${unit}\r\n`);
  const head = frame.motion === 'stable' ? 'ST' : 'US';
  return ascii(`${head},${sign(frame, '+')}${digits(frame).padStart(8, '0')}${unit}\r\n`);
};
