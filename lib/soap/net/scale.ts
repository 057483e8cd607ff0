import { above } from '../check';
import type { Source } from '../source';
import { allowableVariation } from './plans';
import { tolerableError } from './tolerable';

/** The scale that a lot is checked with, at about the weight of a bar; grams. */
export interface CheckingScale {
  readonly step: number;
  /** What it showed less what a known mass near a bar's weight is; `null` when nobody has put one on. */
  readonly off: number | null;
}

export interface ScaleCheck {
  /** What its readings may be off by: the deviation, half a step of rounding and a quarter of the zero's. */
  readonly error: number | null;
  readonly most: number;
  readonly verdict: 'good' | 'not-good' | 'not-known';
  readonly source: Source;
}

/** Of the tolerable negative error, a measurement may take so much. */
const SHARE = 0.2;
const SOURCE: Source = { text: 'WELMEC 6.9; NI SR 2011/331 Sch. 2 para 1.3: at most 0.2 of the tolerable negative error', grade: 'A' };
const HANDBOOK_SHARE = 1 / 6;
const HANDBOOK: Source = { text: 'NIST Handbook 133: at most a sixth of the maximum allowable variation', grade: 'memory' };
/** Half a step of rounding, and a quarter for the zero (OIML R 76-1, 4.5.2: ±0.25 e). */
const ROUNDING = 0.75;

const held = ({ step, off }: CheckingScale, most: number, source: Source): ScaleCheck => {
  above(step, 'the step of a scale');
  if (off === null) return { error: null, most, verdict: 'not-known', source };
  const error = Math.abs(off) + ROUNDING * step;
  return { error, most, verdict: error <= most + 1e-9 ? 'good' : 'not-good', source };
};

/** Whether a scale can check bars of a nominal weight by the average system. @throws RangeError */
export const checkScale = (scale: CheckingScale, nominal: number): ScaleCheck => held(scale, SHARE * tolerableError(nominal).grams, SOURCE);

/** The same by Handbook 133; `null` where the allowable variation is not known. */
export const checkScaleByHandbook = (scale: CheckingScale, label: number): ScaleCheck | null => {
  const variation = allowableVariation(label);
  return variation === null ? null : held(scale, HANDBOOK_SHARE * variation, HANDBOOK);
};
