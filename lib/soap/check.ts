/** Guards at the door of every computation: a figure that cannot be one is refused in words, never carried on as NaN. */

/** Zero or more. @throws RangeError */
export const amount = (value: number, what: string): number => {
  if (!(value >= 0 && Number.isFinite(value))) throw new RangeError(`${what} must be a number, zero or more`);
  return value;
};

/** Above zero. @throws RangeError */
export const above = (value: number, what: string): number => {
  if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${what} must be a number above zero`);
  return value;
};

/** A fraction from 0 to 1. @throws RangeError */
export const fraction = (value: number, what: string): number => {
  if (!(value >= 0 && value <= 1)) throw new RangeError(`${what} must be a fraction from 0 to 1`);
  return value;
};

/** A fraction above 0 and at most 1: nothing is 0 % or 130 % pure. @throws RangeError */
export const purity = (value: number, what: string): number => {
  if (!(value > 0 && value <= 1)) throw new RangeError(`${what} must be a fraction above 0 and at most 1`);
  return value;
};

/** Acetic acid, the smallest a maker meets, takes 934 mg KOH/g: more than 1000 is a slip of the pen. */
const HIGHEST_SV = 1000;

/** A saponification value in mg KOH/g. @throws RangeError */
export const saponificationValue = (value: number): number => {
  if (!(value > 0 && value <= HIGHEST_SV)) throw new RangeError('a saponification value lies above 0 and at most 1000 mg KOH/g');
  return value;
};

/** What a sum may be off by through its last binary digits alone. */
const HAIR = 1e-9;

/** A figure inside what a table or model covers. @throws RangeError naming the limits */
export const within = (value: number, low: number, high: number, what: string): number => {
  if (!(value >= low - HAIR && value <= high + HAIR)) throw new RangeError(`${what} is known from ${low} to ${high} only`);
  return Math.min(high, Math.max(low, value));
};
