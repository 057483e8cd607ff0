import { ascii, digits, sign } from './frame';
import type { ScaleFrame } from './frame';

/**
 * 1–3 command, 4 space, 5 marker (space stable, `?` unstable, `^` over, `v` under), 6 space, 7 sign, 8–16 mass right-justified,
 * 17 space, 18–20 unit left-justified, CR LF. A stream echoes `SI`, as an answer to that command does.
 */
export const echoMarker = (frame: ScaleFrame, command: 'S' | 'SI' = 'SI'): Uint8Array => {
  const marker = frame.range === 'over' ? '^' : frame.range === 'under' ? 'v' : frame.motion === 'stable' ? ' ' : '?';
  return ascii(`${command.padEnd(3)} ${marker} ${sign(frame, ' ')}${digits(frame).padStart(9)} ${frame.unit.padEnd(3)}\r\n`);
};
