import type { Figure } from '#lib/units/format';

/** Advance of a digit and of the decimal mark in the figure face, in em. The widest digit's ink is 0.578: none touches the next. */
const DIGIT = 0.592;
const MARK = 0.3;
/** What follows the point is set at this size: the digit that never rests should be the quieter one. */
export const PART = 0.6;
/** Width in em that the full size fits: three digits, the mark and one. */
const FITS = 3 * DIGIT + PART * (MARK + DIGIT);

export interface Slots {
  /** One text per place, the sign in the place before the first digit; empty places stay empty. */
  readonly whole: readonly string[];
  readonly mark: string;
  readonly part: readonly string[];
  /** Of the full size. */
  readonly size: number;
  /** Width of the whole digits, in em of the figure. */
  readonly wholeWidth: number;
}

/**
 * The places of a figure. `room` is the number of whole digits the line may need, so that no digit moves while it is poured. Of pounds and
 * ounces the ounces stand in the small part, two places before their mark.
 */
export const slotsOf = ({ sign, whole, mark, fraction, rest }: Figure, room: number): Slots => {
  const places = Math.max(room, whole.length);
  const padded = Array.from({ length: places }, (_, index) => whole[index - (places - whole.length)] ?? '');
  const free = places - whole.length - 1;
  if (sign !== '' && free >= 0) padded[free] = sign;
  const small =
    rest === null ? Array.from(fraction) : [...Array.from(rest.whole.padStart(2, '0')), rest.mark, ...Array.from(rest.fraction)];
  const smallMark = rest === null ? mark : '';
  const partWidth = PART * ((smallMark === '' ? 0.2 : MARK) + small.length * DIGIT);
  const wholeWidth = places * DIGIT;
  return { whole: padded, mark: smallMark, part: small, size: Math.min(1, FITS / (wholeWidth + partWidth)), wholeWidth };
};

/** Whole digits to keep room for: of a quarter more than the target, and never under three. */
export const roomFor = (largest: Figure): number => Math.max(largest.rest === null && largest.unit !== 'lb' ? 3 : 2, largest.whole.length);
