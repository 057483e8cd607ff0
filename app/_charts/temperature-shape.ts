import { GLASS } from './vernier-shape';
import type { Glass } from './vernier-shape';

/**
 * Two columns in the same glass. The notch is the window of the formula and stands in the same place for every formula; the jaw that
 * hangs from the hotter level is the allowed difference, to scale. Above the glass a column brims.
 */
export interface TemperatureGlass extends Glass {
  readonly lye: { readonly x: number };
  readonly oils: { readonly x: number };
  readonly column: number;
}

const frame = (name: keyof typeof GLASS, lye: number, oils: number, column: number): TemperatureGlass => ({
  ...GLASS[name],
  lye: { x: lye },
  oils: { x: oils },
  column,
  shoulder: column * 0.28,
});

const SMALL = frame('small', 42, 148, 34);

/** `page`: a phone that shows nothing but temperatures has the whole width for them, and less height. */
export const TEMPERATURE_GLASS: Readonly<Record<keyof typeof GLASS | 'page', TemperatureGlass>> = {
  wide: frame('wide', 70, 252, 58),
  small: SMALL,
  phone: frame('phone', 38, 124, 30),
  page: { ...SMALL, height: 224, foot: 205 },
};

const WINDOW_TOP = 0.42;
const WINDOW_FOOT = 0.8;

export interface Degrees {
  /** y of thousandths of a degree Celsius, clamped to the glass. */
  y(milliCelsius: number): number;
  readonly low: number;
  readonly high: number;
  /** At the foot and at the lip, thousandths of a degree. */
  readonly from: number;
  readonly to: number;
}

export const degreesOf = (glass: Glass, window: { readonly low: number; readonly high: number }): Degrees => {
  const height = glass.foot - glass.top;
  const high = glass.top + WINDOW_TOP * height;
  const low = glass.top + WINDOW_FOOT * height;
  const perUnit = (window.high - window.low) / (low - high);
  const y = (value: number): number => Math.min(glass.foot, Math.max(glass.top, low - (value - window.low) / perUnit));
  return { y, low, high, from: window.low - (glass.foot - low) * perUnit, to: window.high + (high - glass.top) * perUnit };
};

export const columnOutline = (
  { column, shoulder, top, foot }: TemperatureGlass,
  x: number,
  { low, high }: Degrees,
  lip: number,
): string => {
  const right = x + column;
  return (
    `M${x - lip} ${top - 4}Q${x} ${top - 4} ${x} ${top + 6}V${high}H${x - shoulder}V${low}H${x}V${foot}` +
    `H${right}V${low}H${right + shoulder}V${high}H${right}V${top + 6}Q${right} ${top - 4} ${right + lip} ${top - 4}`
  );
};

export const columnNotch = ({ column, shoulder }: TemperatureGlass, x: number, { low, high }: Degrees): string =>
  `M${x + 2} ${high}H${x - shoulder}V${low}H${x + 2}M${x + column - 2} ${high}H${x + column + shoulder}V${low}H${x + column - 2}`;

export const columnFill = ({ column, shoulder, foot, inset }: TemperatureGlass, x: number, { low, high }: Degrees, y: number): string => {
  const [left, right] = [x + inset, x + column - inset];
  const bottom = foot - inset;
  if (y >= low) return `M${left} ${bottom}V${Math.min(y, bottom)}H${right}V${bottom}Z`;
  const wide = Math.max(high, y);
  const body = `M${left} ${bottom}V${low}H${left - shoulder}V${wide}`;
  const close = `H${right + shoulder}V${low}H${right}V${bottom}Z`;
  return y >= high ? `${body}${close}` : `${body}H${left}V${y}H${right}V${wide}${close}`;
};
