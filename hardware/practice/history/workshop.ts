import { as } from '#lib/units/id';
import type { LotId, PersonId } from '#lib/units/id';
import type { LinePlan, Plan } from '#lib/work/batch/index';
import { planOf } from '#lib/work/formula/index';
import { ALDER_AND_OAT_FORMULA } from '#lib/work/formula/sample/formulas';
import { SAMPLE_WORKSHOP } from '#lib/work/formula/sample/workshop';
import type { Hand } from './hand';
import type { Random } from '../world/random';

/** An invented workshop with a past: its formulas, its lots, its people. Nothing of it is anybody's. */

const FIRST = ['Alder', 'Birch', 'Heather', 'Juniper', 'Larch', 'Linden', 'Meadow', 'Moss', 'Rowan', 'Sedge', 'Slate', 'Thistle'];
const SECOND = ['bog', 'brook', 'clay', 'dusk', 'field', 'fen', 'hearth', 'mill', 'oat', 'rain', 'smoke', 'tarn'];

const NOTES = [
  'Stick blender for twenty seconds, then by hand.',
  'The window was open; a draught over the bench.',
  'A little false trace at the rim, warmed and stirred out.',
  'Poured cooler than last time, tops smoother.',
  'Clay wetted first, no clumps.',
  'Fragrance moved the batter quickly.',
  'Oats finer than usual, ground twice.',
  'Second person watched the hydroxide.',
  'Soda ash expected, covered at once.',
  'Jug rinsed into the pot with a spoon of the water.',
];

/** Shares of the fats in per cent, all four of them and adding up to a hundred. */
const sharesOf = (random: Random): readonly [number, number, number, number] => {
  const coconut = Math.round(random.between(25, 31));
  const shea = Math.round(random.between(8, 15));
  const olive = Math.round(random.between(34, 46));
  return [coconut, shea, olive, 100 - coconut - shea - olive];
};

/** The plan of one invented formula, worked out by the chemistry as any other. */
const planOfFormula = (at: number, random: Random): Plan => {
  const name = `${FIRST[at % FIRST.length]} & ${SECOND[(at * 5 + Math.floor(at / FIRST.length)) % SECOND.length]}`;
  const shares = sharesOf(random);
  const entries = ALDER_AND_OAT_FORMULA.entries.map((entry, n) =>
    n < shares.length ? { ...entry, amount: { kind: 'share', of: 'fats', percent: String(shares[n]) } as const } : entry,
  );
  const size = { kind: 'fats', value: String(Math.round(random.between(7, 16)) * 100), unit: 'g' } as const;
  const formula = { ...ALDER_AND_OAT_FORMULA, id: `past-${at}`, name, version: 1 + (at % 4), entries, size, moulds: [] };
  const found = planOf(formula, SAMPLE_WORKSHOP);
  if (found.kind !== 'plan') throw new Error(`${name} has no plan`);
  return found.plan;
};

export const plansOf = (count: number, random: Random): readonly Plan[] =>
  Array.from({ length: count }, (_, at) => planOfFormula(at, random));

/** The plan with the lots that stood open on that day: a lot lasts some weeks, then comes the next. */
export const withLots = (plan: Plan, day: number): Plan => ({
  ...plan,
  lines: plan.lines.map((line, n): LinePlan => {
    // One whose certificate the plan was worked out with stays: of another nothing is known.
    if (line.lot !== null) return line;
    const turn = 1 + Math.floor((day + 11 * n) / (35 + 9 * n));
    const mark = `${line.material.name.slice(0, 2).toUpperCase()}-${String(1000 + 37 * n + turn)}`;
    return { ...line, lot: { id: as<LotId>(`lot-${line.id}-${turn}`), mark } };
  }),
});

export const HANDS: readonly Hand[] = [
  { person: as<PersonId>('past-one'), bias: 0.08, scatter: 0.3, over: 0.012, crossesOut: 0.4, lag: 260, pace: 26 },
  { person: as<PersonId>('past-two'), bias: 0.22, scatter: 0.4, over: 0.03, crossesOut: 0.6, lag: 420, pace: 19 },
  { person: as<PersonId>('past-three'), bias: -0.12, scatter: 0.24, over: 0.006, crossesOut: 0.5, lag: 330, pace: 38 },
];

/** What somebody wrote down that day: mostly nothing or one thing. */
export const notesOf = (random: Random): readonly string[] =>
  Array.from({ length: Math.floor(random.between(0, 2.6)) }, () => NOTES[Math.floor(random.next() * NOTES.length)] ?? '');
