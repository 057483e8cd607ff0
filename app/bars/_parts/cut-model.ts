import { againstLabel, curedFit, fitsOf, fitThatCarries } from '#lib/soap/cut';
import type { CuredFit, Cutter } from '#lib/soap/cut';
import { finishingLoss } from '#lib/soap/finishing';
import type { FinishingLoss } from '#lib/soap/finishing';
import type { CureForecast, Spread90 } from '#lib/soap/shrink/index';
import { LAST_DAY, weightOn } from '#lib/soap/shrink/index';
import { readNumber } from '#lib/units/parse';
import type { BarsRow } from '#lib/protocol/bars';
import type { BarsState } from '#lib/work/bars/index';
import type { CutterKept } from '#lib/work/bars/documents';

/** What stands in the form of a cut, as typed. */
export interface CutTyped {
  /** Id of a cutter that is kept; empty: by hand. */
  readonly cutter: string;
  readonly length: string;
  readonly mass: string;
  readonly trim: string;
  readonly kerf: string;
  readonly ends: '0' | '1' | '2';
  readonly least: string;
  readonly most: string;
  readonly label: string;
}

const UM = 1000;
const GRAM = 1000;

/** A number as typed, point or comma; `null` while it is none. */
export const numberIn = (text: string): number | null => {
  const read = readNumber(text.trim());
  return read.kind === 'number' ? Number(read.decimal) : null;
};

/** Something stands there, and it is no number. */
export const isUnread = (text: string): boolean => text.trim() !== '' && numberIn(text) === null;

const mm = (micrometres: number | null): string => (micrometres === null ? '' : String(micrometres / UM));

/** Thinnest and thickest bar of a hand that keeps no cutter, mm. Ours. */
const BY_HAND = { least: '15', most: '40' };

export const typedCut = (
  { mould, batter, moulds }: Pick<BarsState, 'mould' | 'batter' | 'moulds'>,
  cutter: CutterKept | null,
): CutTyped => ({
  cutter: cutter?.id ?? '',
  length: mm(mould.length),
  mass: batter === null ? '' : String(Math.round(batter / moulds.length) / 1000),
  trim: cutter?.trim ?? '0',
  kerf: cutter?.kerf ?? '0',
  ends: cutter === null ? '0' : (String(cutter.ends) as CutTyped['ends']),
  least: cutter?.least ?? BY_HAND.least,
  most: cutter?.most ?? BY_HAND.most,
  label: '',
});

/** What the newest label of this formula's bars out of such a mould states, g as typed; empty: none was labelled yet. */
export const labelBefore = ({ formula, mould }: Pick<BarsRow, 'formula' | 'mould'>, all: readonly BarsRow[]): string => {
  const alike = all.filter((one) => one.label !== null && one.formula.id === formula.id && one.mould.id === mould.id);
  const newest = alike.toSorted((a, b) => b.poured - a.poured)[0]?.label ?? null;
  return newest === null ? '' : String(newest / GRAM);
};

const cutterOf = (typed: CutTyped, kept: CutterKept | null): Cutter | null => {
  const kerf = numberIn(typed.kerf);
  if (kerf === null) return null;
  if (kept?.kind === 'fixed') {
    const gap = numberIn(kept.gap ?? '');
    return gap === null || kept.wires === null ? null : { kind: 'fixed', wires: kept.wires, gap, kerf };
  }
  const [least, most] = [numberIn(typed.least), numberIn(typed.most)];
  return least === null || most === null ? null : { kind: 'adjustable', least, most, kerf };
};

/** Every fit of one log. `null`: something is not typed yet, or cannot be. */
export const fitsFor = (
  typed: CutTyped,
  kept: CutterKept | null,
  loss: FinishingLoss | null,
  forecast: CureForecast | null,
): readonly CuredFit[] | null => {
  const [length, mass, trim] = [numberIn(typed.length), numberIn(typed.mass), numberIn(typed.trim)];
  const cutter = cutterOf(typed, kept);
  if (length === null || trim === null || cutter === null) return null;
  const fits = tried(() => fitsOf({ length, mass }, cutter, { trim, ends: Number(typed.ends) as 0 | 1 | 2 }));
  return (
    fits?.map((fit) => (forecast === null ? null : tried(() => curedFit(fit, loss, leftIn(forecast), LABEL_STEP))) ?? bare(fit)) ?? null
  );
};

/** What cannot be worked out from these figures is not. */
const tried = <T>(work: () => T): T | null => {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return null;
  }
};

/** Labels come in whole steps of so many grams. */
const LABEL_STEP = 1;

const bare = (fit: Omit<CuredFit, 'finished' | 'cured' | 'label'>): CuredFit => ({ ...fit, finished: null, cured: null, label: null });

/** What is left of a bar, as a share, on the last day that is forecast: a label is true for as long as it is sold. */
const leftIn = (forecast: CureForecast): Spread90 => {
  const { low, middle, high } = weightOn(forecast, LAST_DAY, 1);
  return { low: Math.max(0, low), middle, high: Math.min(1, high) };
};

/** What the typed label weight says of a fit; `null` where none is typed. */
export const verdictOf = (fit: CuredFit, label: string): ReturnType<typeof againstLabel> | null => {
  const grams = numberIn(label);
  return grams === null || grams <= 0 ? null : againstLabel(fit, grams);
};

export const insteadOf = (fits: readonly CuredFit[], label: string): CuredFit | null => {
  const grams = numberIn(label);
  return grams === null || grams <= 0 ? null : fitThatCarries(fits, grams);
};

/** What finishing took off bars of every lot that was weighed for it. */
export const lossFrom = (rows: readonly Pick<BarsRow, 'trims'>[]): FinishingLoss | null =>
  finishingLoss(
    rows.flatMap(({ trims }) => trims.map(({ how, bars, before, after }) => ({ how, bars, before: before / GRAM, after: after / GRAM }))),
  );
