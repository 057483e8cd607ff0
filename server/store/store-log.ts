/** What the store tells the log; pino fits. */
export interface StoreLog {
  info(fields: object, message: string): void;
  warn(fields: object, message: string): void;
  error(fields: object, message: string): void;
}
