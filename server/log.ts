import { pino } from 'pino';
import type { Logger } from 'pino';

export type Log = Logger;

/**
 * Lines of JSON on standard error; what a person at the terminal reads goes to standard output in words. What the system or the database
 * refused (a full disk, a file without rights) is told by its name; where in the program that was is for `debug` only.
 */
export const createLog = (level: string): Log =>
  pino(
    {
      level,
      base: null,
      timestamp: pino.stdTimeFunctions.isoTime,
      serializers: { err: isVerbose(level) ? pino.stdSerializers.err : told },
    },
    pino.destination({ fd: 2, sync: true }),
  );

const isVerbose = (level: string): boolean => level === 'debug' || level === 'trace';

const told = (error: unknown): unknown => {
  if (!(error instanceof Error) || !('code' in error)) return error instanceof Error ? pino.stdSerializers.err(error) : error;
  const { name, message, code } = error;
  return { type: name, message, code };
};
