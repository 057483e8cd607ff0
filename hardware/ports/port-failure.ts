import { PortError, type PortFailure } from '#lib/measure/link/port';

/**
 * serialport hands over the system's error as text only (`strerror` inside a sentence), so the text decides.
 * Order matters: a lock that is taken says "Resource temporarily unavailable Cannot lock port".
 */
const SAYINGS: readonly (readonly [RegExp, PortFailure])[] = [
  [/cannot lock port|device or resource busy|EBUSY/i, 'busy'],
  [/permission denied|operation not permitted|EACCES|EPERM/i, 'denied'],
  [/no such (file or directory|device)|ENOENT|ENODEV|ENXIO/i, 'missing'],
];

/** What a file or a folder says that is opened as a line. */
const NO_LINE = /inappropriate ioctl|is a directory/i;

/** Names a failed open; what no row knows is `failed` and keeps the system's words. */
export function portFailure(error: unknown): PortError {
  if (error instanceof PortError) return error;
  const said = (error instanceof Error ? error.message : String(error)).replace(/^Error:? /, '');
  const row = SAYINGS.find(([pattern]) => pattern.test(said));
  return new PortError(row?.[1] ?? 'failed', NO_LINE.test(said) ? `no serial port stands there: ${said}` : said);
}
