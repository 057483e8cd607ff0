import { sumOfAll } from '#lib/units/sum';
import { above, amount, fraction } from './check';
import type { FinishingLoss } from './finishing';
import type { Spread90 } from './shrink/index';

/** A log of soap as it lies before the cutter, all of one section. */
export interface Log {
  /** mm. */
  readonly length: number;
  /** Grams, of the whole log; `null` where it was not weighed: then nothing is said in grams. */
  readonly mass: number | null;
}

/**
 * How it is cut. `trim`: taken off each faced end, mm. `kerf`: what one cut takes, mm; a wire crushes its own width, a blade its thickness.
 * `ends`: how many ends are faced. Bars between N cuts and none beyond: both faced N + 1 cuts, one N, none N − 1.
 */
export interface Cutting {
  readonly trim: number;
  readonly kerf: number;
  readonly ends: 0 | 1 | 2;
}

/** A cutter as the workshop remembers it. Lengths mm. */
export type Cutter =
  /** So many wires in a frame, `gap` clear between two of them. */
  | { readonly kind: 'fixed'; readonly wires: number; readonly gap: number; readonly kerf: number }
  /** One wire or blade against a stop, from one thickness to another. */
  | { readonly kind: 'adjustable'; readonly least: number; readonly most: number; readonly kerf: number };

/** One way of cutting a log. Masses in grams, `null` with the log's. */
export interface Fit {
  readonly bars: number;
  /** mm. */
  readonly thickness: number;
  readonly cuts: number;
  /** Thickness of each trimmed end, mm: counted as ends and testers, not sold. Empty where no end is faced. */
  readonly ends: readonly number[];
  /** What the cuts took, mm. */
  readonly lost: number;
  readonly cutMass: number | null;
  /** Of all ends together. */
  readonly endMass: number | null;
}

const checkedLog = ({ length, mass }: Log): void => {
  above(length, 'the length of a log');
  if (mass !== null) above(mass, 'the mass of a log');
};

const fitOf = (log: Log, bars: number, thickness: number, cuts: number, kerf: number, ends: readonly number[]): Fit => {
  const perMm = log.mass === null ? null : log.mass / log.length;
  return {
    bars,
    thickness,
    cuts,
    ends,
    lost: cuts * kerf,
    cutMass: perMm === null ? null : perMm * thickness,
    endMass: perMm === null ? null : perMm * sumOfAll(ends),
  };
};

/** How many cuts make so many bars. */
export const cutsFor = (bars: number, ends: Cutting['ends']): number => bars - 1 + ends;

/**
 * So many bars of a log: (length − trims − cuts × kerf) ÷ bars thick, arithmetic. `null` where nothing is left. @throws RangeError
 * 254 mm, trims of 3, a wire of 0.5: ten bars of 24.25 mm, twelve of 20.125.
 */
export const cutInto = (log: Log, bars: number, { trim, kerf, ends }: Cutting): Fit | null => {
  checkedLog(log);
  amount(trim, 'a trim');
  amount(kerf, 'a kerf');
  if (!(Number.isInteger(bars) && bars > 0)) throw new RangeError('a log is cut into a whole number of bars');
  const cuts = cutsFor(bars, ends);
  const thickness = (log.length - ends * trim - cuts * kerf) / bars;
  return thickness > 0 ? fitOf(log, bars, thickness, cuts, kerf, Array<number>(ends).fill(trim)) : null;
};

/** The one fit of a frame of wires: what does not fit between them is ends, both alike where both are faced. `null` where no bar fits. */
const cutByFrame = (log: Log, { wires, gap, kerf }: Extract<Cutter, { kind: 'fixed' }>, ends: Cutting['ends']): Fit | null => {
  checkedLog(log);
  above(gap, 'the gap between two wires');
  amount(kerf, 'the width of a wire');
  if (!(Number.isInteger(wires) && wires > 0)) throw new RangeError('a frame has a whole number of wires');
  // Faced ends lie outside the outer wires; an end as it was poured stands at a stop one gap from the first wire.
  const held = (log.length + (1 - ends) * kerf) / (gap + kerf);
  const bars = Math.min(wires + 1 - ends, Math.floor(held + 1e-9));
  if (bars < 1) return null;
  const rest = log.length - bars * gap - cutsFor(bars, ends) * kerf;
  if (ends === 2) return fitOf(log, bars, gap, bars + 1, kerf, [rest / 2, rest / 2]);
  const extra = ends === 0 && rest > kerf + 1e-9 ? 1 : 0;
  const left = rest - extra * kerf;
  return fitOf(log, bars, gap, cutsFor(bars, ends) + extra, kerf, left > 1e-9 ? [left] : []);
};

/** More bars than this are no log on a bench. */
const MOST_BARS = 200;

/** Every way a cutter can cut a log, thickest bars first. @throws RangeError */
export const fitsOf = (log: Log, cutter: Cutter, { trim, ends }: Omit<Cutting, 'kerf'>): readonly Fit[] => {
  if (cutter.kind === 'fixed') {
    const only = cutByFrame(log, cutter, ends);
    return only === null ? [] : [only];
  }
  above(cutter.least, 'the thinnest bar');
  if (!(cutter.most >= cutter.least)) throw new RangeError('the thickest bar is no thinner than the thinnest');
  const fits: Fit[] = [];
  for (let bars = 1; bars <= MOST_BARS; bars += 1) {
    const fit = cutInto(log, bars, { trim, ends, kerf: cutter.kerf });
    if (fit === null || fit.thickness < cutter.least - 1e-9) break;
    if (fit.thickness <= cutter.most + 1e-9) fits.push(fit);
  }
  return fits;
};

/** A fit after finishing and cure, grams. */
export interface CuredFit extends Fit {
  readonly finished: number | null;
  readonly cured: Spread90 | null;
  /** The heaviest label that the lowest forecast still carries, a whole number of steps. */
  readonly label: number | null;
}

/**
 * What becomes of a fit. @param left what is left of a bar's weight at the day the label must be true (a cure forecast's `1 − loss`).
 * @param step labels come in steps of so many grams. @throws RangeError
 */
export const curedFit = (fit: Fit, loss: FinishingLoss | null, left: Spread90, step: number): CuredFit => {
  above(step, 'the step of a label');
  for (const one of [left.low, left.middle, left.high]) fraction(one, 'what is left of a bar');
  if (fit.cutMass === null) return { ...fit, finished: null, cured: null, label: null };
  const finished = Math.max(0, fit.cutMass - (loss?.mean ?? 0));
  const off = (loss?.half ?? 0) * left.middle;
  const middle = finished * left.middle;
  const cured = {
    low: Math.max(0, middle - Math.hypot(finished * (left.middle - left.low), off)),
    middle,
    high: middle + Math.hypot(finished * (left.high - left.middle), off),
  };
  return { ...fit, finished, cured, label: Math.floor(cured.low / step + 1e-9) * step };
};

export type LabelVerdict =
  /** Even the lowest forecast carries it. */
  | 'carries'
  /** Only the middle does: it may fall under. */
  | 'doubtful'
  /** Would fall under its label weight after cure. */
  | 'under'
  /** The log was not weighed, or nothing is forecast of its bars. */
  | 'not-known';

export const againstLabel = ({ cured, cutMass }: CuredFit, label: number): LabelVerdict => {
  above(label, 'a label weight');
  // No bar gains weight: what is lighter when cut needs no forecast.
  if (cured === null) return cutMass !== null && cutMass < label ? 'under' : 'not-known';
  if (cured.low >= label) return 'carries';
  return cured.middle >= label ? 'doubtful' : 'under';
};

/** Of all ways of cutting, the one with most bars that carries the label; `null` where none does. */
export const fitThatCarries = (fits: readonly CuredFit[], label: number): CuredFit | null =>
  fits.filter((fit) => againstLabel(fit, label) === 'carries').toSorted((a, b) => b.bars - a.bars)[0] ?? null;
