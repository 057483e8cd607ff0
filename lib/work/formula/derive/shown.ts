import type { DerivedFrom, Derivation } from '../derivation';
import { gradeOf, numberOf, type Figure } from '../figure';
import type { Source } from '#lib/soap/source';

/** Digits of a filled-in formula: what a person can follow with a calculator. */
export const n = (value: number, digits = 5): string => {
  const short = String(Number(value.toPrecision(digits)));
  return short.includes('e') ? value.toFixed(0) : short;
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

export const typedFrom = (name: string, value: number, unit: string): DerivedFrom => ({
  name,
  value,
  unit,
  source: 'the formula',
  grade: 'typed',
});
