import { readFileSync } from 'node:fs';

/** Loaded before a program: its wall clock runs ahead by what stands in the file SHIFTED_CLOCK names, ms. Monotonic time is left alone. */
const file = process.env['SHIFTED_CLOCK'] ?? '';
const RealDate = Date;
const now = () => RealDate.now() + Number(readFileSync(file, 'utf8'));

globalThis.Date = new Proxy(RealDate, {
  construct: (target, given, called) => Reflect.construct(target, given.length === 0 ? [now()] : given, called),
  get: (target, key) => (key === 'now' ? now : Reflect.get(target, key)),
});
