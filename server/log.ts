import { pino } from 'pino';
import type { Logger } from 'pino';

export type Log = Logger;

/** Lines of JSON on standard error; what a person at the terminal reads goes to standard output in words. */
export const createLog = (level: string): Log =>
  pino({ level, base: null, timestamp: pino.stdTimeFunctions.isoTime }, pino.destination({ fd: 2, sync: true }));
