import type { DerivedFrom, Derivation } from '../derivation';
import { gradeOf, numberOf, type Figure } from '../figure';
import type { Source } from '#lib/soap/source';

/** Digits of a filled-in formula: what a person can follow with a calculator. */
export const n = (value: number, digits = 5): string => {
  const short = String(Number(value.toPrecision(digits)));
  return short.includes('e') ? value.toFixed(Math.abs(value) < 1 ? 9 : 0) : short;
};

export const derivation = (
  one: Pick<Derivation, 'id' | 'value' | 'unit' | 'formula' | 'filled' | 'inputs'> & Partial<Derivation>,
): Derivation => ({ u: null, parts: [], ...one });

/** An input that is itself a figure of the catalogue or a certificate. */
export const fromFigure = (name: string, figure: Figure): DerivedFrom => {
  const [low, high] = [numberOf(figure.low ?? ''), numberOf(figure.high ?? '')];
  return {
    name,
    value: numberOf(figure.value) ?? Number.NaN,
    ...(low === null ? {} : { low }),
    ...(high === null ? {} : { high }),
    unit: figure.unit,
    source: figure.source,
    grade: figure.grade,
  };
};

export const fromSource = (name: string, value: number, unit: string, source: Source): DerivedFrom => ({
  name,
  value,
  unit,
  source: source.text,
  grade: gradeOf(source),
});

export const computedFrom = (name: string, value: number, unit: string, of?: string): DerivedFrom => ({
  name,
  value,
  unit,
  source: 'worked out here',
  grade: 'computed',
  ...(of === undefined ? {} : { derivation: of }),
});

export const typedFrom = (name: string, value: number, unit: string, source = 'the formula'): DerivedFrom => ({
  name,
  value,
  unit,
  source,
  grade: 'typed',
});

/** What acids take, where there are any. */
export const acidFrom = (moles: number, name = 'acid demand'): readonly DerivedFrom[] =>
  moles === 0 ? [] : [computedFrom(name, moles, 'mol', 'acid-demand')];

/** What a person may say and did, or what stands in its place and why. */
export const saidFrom = (name: string, value: number, unit: string, said: string | null, instead: string): DerivedFrom =>
  said === null ? { name, value, unit, source: instead, grade: 'common practice' } : typedFrom(name, value, unit, said);

/** Parts of an uncertainty that a person would look at: each at least half a hundredth, largest first. */
export const worthSaying = (parts: Derivation['parts']): Derivation['parts'] =>
  parts.filter(({ share }) => share >= 0.005).toSorted((a, b) => b.share - a.share);

/** The uncertainty of a sum of independent parts, and what it is made of. */
export const combined = (parts: readonly { readonly what: string; readonly u: number }[]): Pick<Derivation, 'u' | 'parts'> => {
  const u = Math.hypot(...parts.map((part) => part.u));
  return { u, parts: u === 0 ? [] : worthSaying(parts.map(({ what, u: one }) => ({ what, share: (one / u) ** 2 }))) };
};
