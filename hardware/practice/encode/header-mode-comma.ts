import { ascii, digits, sign } from './frame';
import type { ScaleFrame } from './frame';

/** `S1 , S2 , S3 data S4 CR LF`: ST/US/OL; GS gross (this scale never tares itself); sign; figure right-justified in seven; unit. */
export const headerModeComma = (frame: ScaleFrame): Uint8Array => {
  const head = frame.range !== 'in' ? 'OL' : frame.motion === 'stable' ? 'ST' : 'US';
  // The layout has one mark for out of range; the sign tells which way, the figure is blank.
  const plus = frame.range === 'under' ? '-' : sign(frame, '+');
  const data = frame.range === 'in' ? digits(frame) : '';
  return ascii(`${head},GS,${plus}${data.padStart(7)}${frame.unit}\r\n`);
};
