/**
 * The geometry of the vernier: two columns of one height H. The coarse one holds the whole target T in 0.8 H with room to 1.25 T;
 * the fine one spends H/20 on one tolerance t, 16 t below the target and 4 t above. One datum line crosses both H/5 from the top, so the
 * notch (2 t) is H/10 high and stands in the same place for every line and every unit.
 */
export interface Glass {
  readonly width: number;
  readonly height: number;
  readonly top: number;
  readonly foot: number;
  readonly coarse: { readonly x: number; readonly width: number };
  readonly fine: { readonly x: number; readonly width: number };
  /** How far the notch widens the fine glass on either side. */
  readonly shoulder: number;
  readonly text: { readonly plain: number; readonly strong: number };
  /** Units between the wall and what is in it. */
  readonly inset: number;
  /** Units on either side of the drawing in which nothing else stands. */
  readonly free: number;
}

export const GLASS: Readonly<Record<'wide' | 'small' | 'phone', Glass>> = {
  wide: {
    width: 424,
    height: 508,
    top: 6,
    foot: 480,
    coarse: { x: 64, width: 54 },
    fine: { x: 228, width: 92 },
    shoulder: 34,
    text: { plain: 22, strong: 28 },
    inset: 7,
    free: 16,
  },
  small: {
    width: 252,
    height: 276,
    top: 5,
    foot: 257,
    coarse: { x: 52, width: 38 },
    fine: { x: 126, width: 52 },
    shoulder: 24,
    text: { plain: 15, strong: 18 },
    inset: 4,
    free: 12,
  },
  phone: {
    width: 226,
    height: 344,
    top: 5,
    foot: 324,
    coarse: { x: 52, width: 30 },
    fine: { x: 112, width: 42 },
    shoulder: 18,
    text: { plain: 15, strong: 18 },
    inset: 4,
    free: 12,
  },
};

/** Column height is a whole number of tolerances: H = 20 units of one tolerance each. */
const BELOW = 16;
const ABOVE = 4;

export interface Scale {
  readonly datum: number;
  /** Height of one tolerance. */
  readonly unit: number;
  /** y of a mass in the coarse column, clamped to the glass. */
  coarse(mass: number): number;
  fine(mass: number): number;
  /** Below this the fine column shows nothing. */
  readonly stretchFrom: number;
  readonly stretchTo: number;
}

export const scaleOf = (glass: Glass, target: number, tolerance: number): Scale => {
  const height = glass.foot - glass.top;
  const datum = glass.top + height / 5;
  const unit = height / (BELOW + ABOVE);
  const clamp = (y: number): number => Math.min(glass.foot, Math.max(glass.top, y));
  return {
    datum,
    unit,
    coarse: (mass) => clamp(datum + (1 - mass / target) * 0.8 * height),
    fine: (mass) => clamp(datum + ((target - mass) / tolerance) * unit),
    stretchFrom: Math.max(0, target - BELOW * tolerance),
    stretchTo: target + ABOVE * tolerance,
  };
};

/** Bar, T, cross, brimming, or hatched: what a silhouette says from across the room. */
export type Silhouette = 'empty' | 'bar' | 'within' | 'cross' | 'brimming' | 'hatched';

export const silhouetteOf = (total: number | null, target: number, tolerance: number): Silhouette => {
  if (total === null) return 'hatched';
  if (total > target + ABOVE * tolerance) return 'brimming';
  if (total > target + tolerance) return 'cross';
  if (total >= target - tolerance) return 'within';
  return total <= 0 ? 'empty' : 'bar';
};

/** The step between labels, in units of what is shown: 1, 2 or 5 times a power of ten, at most `most` of them in `span`. */
export const niceStep = (span: number, most: number): number => {
  const raw = span / most;
  const power = 10 ** Math.floor(Math.log10(raw));
  const factor = [1, 2, 5, 10].find((candidate) => candidate * power >= raw * 0.999) ?? 10;
  return factor * power;
};

export interface Tick {
  readonly value: number;
  readonly y: number;
  readonly major: boolean;
}

/** Ticks of a column: labelled steps with `per` parts each, from `from` to `to` in shown units. */
export const ticks = (from: number, to: number, most: number, per: number, y: (value: number) => number): readonly Tick[] => {
  const major = niceStep(to - from, most);
  const minor = major / per;
  const first = Math.ceil(from / minor - 1e-9);
  const last = Math.floor(to / minor + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => {
    const count = first + index;
    const value = count * minor;
    return { value, y: y(value), major: count % per === 0 };
  });
};

/** Outline of the coarse column, from the left lip round to the right lip. */
export const coarseOutline = ({ coarse: { x, width }, top, foot }: Glass, lip: number): string =>
  `M${x - lip} ${top - 4}Q${x} ${top - 4} ${x} ${top + 6}V${foot}H${x + width}V${top + 6}Q${x + width} ${top - 4} ${x + width + lip} ${top - 4}`;

export const coarseFill = ({ coarse: { x, width }, foot, inset }: Glass, y: number): string => {
  const bottom = foot - inset;
  return `M${x + inset} ${bottom}V${Math.min(y, bottom)}H${x + width - inset}V${bottom}Z`;
};

/** Outline of the fine column with its shoulders, from the left lip round to the right lip. */
export const fineOutline = ({ fine, shoulder, top, foot }: Glass, { datum, unit }: Scale, lip: number): string => {
  const [left, right] = [fine.x, fine.x + fine.width];
  const [high, low] = [datum - unit, datum + unit];
  return (
    `M${left - lip} ${top - 4}Q${left} ${top - 4} ${left} ${top + 6}V${high}H${left - shoulder}V${low}H${left}V${foot}` +
    `H${right}V${low}H${right + shoulder}V${high}H${right}V${top + 6}Q${right} ${top - 4} ${right + lip} ${top - 4}`
  );
};

/** The notch alone, drawn heavier: two brackets that the glass opens into. */
export const notchOutline = ({ fine, shoulder }: Glass, { datum, unit }: Scale): string => {
  const [left, right] = [fine.x, fine.x + fine.width];
  const [high, low] = [datum - unit, datum + unit];
  return `M${left + 2} ${high}H${left - shoulder}V${low}H${left + 2}M${right - 2} ${high}H${right + shoulder}V${low}H${right - 2}`;
};

/** What is in the fine column up to `y`: a bar, a T once in the notch, a cross above it. */
export const fineFill = ({ fine, shoulder, foot, inset }: Glass, { datum, unit }: Scale, y: number): string => {
  const [left, right] = [fine.x + inset, fine.x + fine.width - inset];
  const [high, low] = [datum - unit + inset, datum + unit - inset];
  const bottom = foot - inset;
  if (y >= low) return `M${left} ${bottom}V${y}H${right}V${bottom}Z`;
  const wide = Math.max(high, y);
  const body = `M${left} ${bottom}V${low}H${left - shoulder}V${wide}`;
  const close = `H${right + shoulder}V${low}H${right}V${bottom}Z`;
  return y >= high ? `${body}${close}` : `${body}H${left}V${y}H${right}V${wide}${close}`;
};
