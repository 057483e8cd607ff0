import { sumOf } from '#lib/units/sum';
import { batterAt, fragranceAt, fragranceMass, fullAt, lyeAt } from './outcome';
import { pouredSuperfat } from './superfat';
import type { Figured, MassError, Pot, PotMasses, PouredFigures } from './types';
import { wholeOf, type Whole } from './whole';

/** Of a normal distribution, 95 in 100 lie within so many standard uncertainties. */
const COVER = 1.96;

/** Evenly about the value; nothing here can be below zero. */
const evenly = (value: number, u: number): Figured => ({ value, u, low: Math.max(0, value - COVER * u), high: value + COVER * u });

/** Standard uncertainty that the masses' errors give a figure, by what a gram of each line does to it. */
const fromMasses = (errors: readonly MassError[], perGram: (line: number) => number): number =>
  Math.hypot(...errors.map(({ effect }) => sumOf(effect, ({ line, grams }) => grams * perGram(line))));

const lyeOf = (pot: Pot, whole: Whole, errors: readonly MassError[]): Figured | null => {
  const { pure, solution } = lyeAt(whole);
  if (!(solution > 0)) return null;
  const value = pure / solution;
  const byPurity = pot.beliefs.map(({ of, belief }, at) =>
    of === 'purity' ? (belief.u * sumOf(whole.all.alkalis, (one) => (one.belief === at ? one.mass : 0))) / solution : 0,
  );
  const byMass = fromMasses(errors, (line) => ((whole.per[line]?.pure ?? 0) - value * (whole.per[line]?.solution ?? 0)) / solution);
  return evenly(value, Math.hypot(...byPurity, byMass));
};

const isFat = (pot: Pot, line: number): boolean => pot.lines[line]?.part === 'fat';

const sharesOf = (pot: Pot, { grams, fats }: Whole, errors: readonly MassError[]): readonly (Figured | null)[] =>
  pot.lines.map((_, at) => {
    if (!isFat(pot, at) || fats <= 0) return null;
    const share = (grams[at] ?? 0) / fats;
    return evenly(
      share,
      fromMasses(errors, (line) => (isFat(pot, line) ? ((line === at ? 1 : 0) - share) / fats : 0)),
    );
  });

const loadOf = (pot: Pot, whole: Whole, errors: readonly MassError[]): Figured | null => {
  const { fats } = whole;
  if (fats <= 0) return null;
  const load = fragranceMass(pot, whole) / fats;
  const per = (line: number): number => (pot.lines[line]?.part === 'fragrance' ? 1 : isFat(pot, line) ? -load : 0);
  return evenly(
    load,
    fromMasses(errors, (line) => per(line) / fats),
  );
};

/** How the driest bar grows with a gram of a line is taken as the gram itself less its water: near enough for a doubt. */
const fragranceOf = (pot: Pot, whole: Whole, errors: readonly MassError[]): Figured | null => {
  const value = fragranceAt(pot, whole);
  if (value === null || whole.driest <= 0) return null;
  const own = (line: number): number => {
    const { part = null, limit = null } = pot.lines[line] ?? {};
    return part === 'fragrance' && limit !== null ? 1 / limit : 0;
  };
  const dry = (line: number): number => 1 - (pot.lines[line]?.of.water ?? 0);
  return evenly(
    value,
    fromMasses(errors, (line) => (own(line) - value * dry(line)) / whole.driest),
  );
};

const volumesOf = (pot: Pot, whole: Whole, errors: readonly MassError[]): Pick<PouredFigures, 'volume' | 'full'> => {
  const volume = batterAt(pot, whole);
  if (volume === null || whole.batter <= 0) return { volume: null, full: null };
  const byMass = fromMasses(errors, () => volume.value / whole.batter);
  const u = Math.hypot(volume.u, byMass);
  const full = fullAt(pot, whole, volume.value);
  const brim = pot.sizing?.brim ?? null;
  return {
    volume: evenly(volume.value, u),
    full: full === null || brim === null ? null : evenly(full, full * Math.hypot(u / volume.value, brim.u / brim.value)),
  };
};

/** Everything of a pot at its masses, with its doubt. @throws RangeError for a mass below zero */
export const figuresOf = (pot: Pot, { grams, errors }: PotMasses): PouredFigures => {
  const whole = wholeOf(pot, grams);
  return {
    superfat: pouredSuperfat(pot, whole, errors),
    lye: lyeOf(pot, whole, errors),
    shares: sharesOf(pot, whole, errors),
    load: loadOf(pot, whole, errors),
    fragrance: fragranceOf(pot, whole, errors),
    unlimited: pot.lines.flatMap(({ part, limit, name }, at) =>
      part === 'fragrance' && limit === null && (grams[at] ?? 0) > 0 ? [name] : [],
    ),
    ...volumesOf(pot, whole, errors),
  };
};
