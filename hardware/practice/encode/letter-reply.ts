import { ascii, digits, sign } from './frame';
import type { ScaleFrame } from './frame';

/** `S`, space, status (S stable, D dynamic, + overload, − underload), space, figure right-justified in ten, space, unit, CR LF. */
export const letterReply = (frame: ScaleFrame): Uint8Array => {
  if (frame.range !== 'in') return ascii(`S ${frame.range === 'over' ? '+' : '-'}\r\n`);
  const status = frame.motion === 'stable' ? 'S' : 'D';
  return ascii(`S ${status} ${`${sign(frame, '')}${digits(frame)}`.padStart(10)} ${frame.unit}\r\n`);
};
