import type { Belief, MassError, Pot, PotLine, PotParts } from '#lib/soap/poured/types';

/** Four fats by their standards' ranges, sodium hydroxide of 98.5 %, water: low, working value, high, mg KOH/g. */
export const TABLE = [
  ['coconut', 300, 248, 257, 265],
  ['palm', 200, 190, 199, 209],
  ['olive', 400, 184, 190, 196],
  ['shea', 100, 160, 180, 195],
] as const;

const OIL = { value: 0.915, celsius: 20, source: { text: 'test', grade: 'memory' } } as const;
const NOTHING: PotParts = { fats: [], alkalis: [], acids: [], water: 0, inert: [] };

const line = (id: string, part: PotLine['part'], of: Partial<PotParts>, inLye = false): PotLine => ({
  id,
  name: id,
  part,
  inLye,
  of: { ...NOTHING, ...of },
  limit: null,
});

const PURITY = 0.985;

/** A pot of the table; `beliefs` in the order of its fats, then the soda's purity. */
export const potOf = (beliefs: readonly Belief[], table: readonly (readonly [string, number, ...number[]])[] = TABLE): Pot => ({
  lines: [
    ...table.map(([id], at) =>
      line(id, 'fat', { fats: [{ mass: 1, sv: beliefs[at]?.value ?? 0, belief: at, density: OIL, acidValue: 0, unsaponifiable: 0 }] }),
    ),
    line('water', 'liquid', { water: 1 }, true),
    line('soda', 'alkali', { alkalis: [{ kind: 'NaOH', mass: 1, purity: PURITY, belief: table.length }] }, true),
  ],
  beliefs,
  sizing: { pourAt: 40, residue: 20, pourLoss: 0.01, calibration: null, brim: { value: 1500, u: 15 } },
  limits: { superfat: [0.04, 0.06], lye: [0.3, 0.36], shares: {} },
});

const named = (name: string): Pick<Belief, 'material' | 'name' | 'lot'> => ({ material: name, name, lot: null });

export const soda = (u: number, kind: 'certificate' | 'label' = 'certificate'): Belief => ({
  ...named('sodium hydroxide'),
  of: 'purity',
  value: PURITY,
  belief: { kind, u },
});
export const ranged = ([name, , low, value, high]: (typeof TABLE)[number]): Belief => ({
  ...named(name),
  of: 'sv',
  value,
  belief: { kind: 'range', low, high },
});
export const certified = (name: string, value: number, u: number): Belief => ({
  ...named(name),
  of: 'sv',
  value,
  belief: { kind: 'certificate', u },
});

/** Grams of soda for a wished superfat at the working values: molar masses of NaOH and KOH typed in. */
export const sodaFor = (wished: number, table: readonly (readonly [string, number, number, number, number])[] = TABLE): number =>
  (table.reduce((sum, [, mass, , sv]) => sum + mass * sv, 0) * (39.997 / 56.105) * (1 - wished)) / 1000 / PURITY;

/** The table's masses with so much water and soda. */
export const gramsOf = (wished = 0.05, water = 290): readonly number[] => [...TABLE.map(([, mass]) => mass), water, sodaFor(wished)];

export const off = (cause: MassError['cause'], of: string, ...effect: readonly (readonly [line: number, grams: number])[]): MassError => ({
  cause,
  of,
  effect: effect.map(([at, grams]) => ({ line: at, grams })),
});
