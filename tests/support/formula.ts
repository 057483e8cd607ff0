import { SAMPLE_WORKSHOP } from '#lib/work/formula/sample/workshop';
import { newEntry, planOf } from '#lib/work/formula/index';
import type { Amount, Entry, Formula, Part, PlanContext, Planned, Preparation, Problem } from '#lib/work/formula/index';

export const WORKSHOP = SAMPLE_WORKSHOP;

export const mass = (value: string, unit: 'g' | 'kg' | 'oz' | 'lb' = 'g'): Amount => ({ kind: 'mass', value, unit });
export const share = (percent: string, of: 'fats' | 'batter' | 'liquid' | 'hydroxide' | 'blend' = 'fats'): Amount => ({
  kind: 'share',
  of,
  percent,
});
export const REST: Amount = { kind: 'rest' };

export const entry = (id: string, part: Part, material: string | null, amount: Amount | null, more: Partial<Entry> = {}): Entry =>
  newEntry(id, part, { material, amount, ...more });

export const SODA = entry('soda', 'alkali', 'sodium-hydroxide', REST, { lot: 'lot-soda-06' });
export const WATER = entry('water', 'liquid', 'water', REST);
export const OLIVE = entry('olive', 'fat', 'olive', mass('700'));
export const COCONUT = entry('coconut', 'fat', 'coconut', mass('300'));

/** 300 g of coconut and 700 g of olive oil, 5 %, a lye of a third; `given` replaces. */
export const formula = (given: Partial<Formula> = {}): Formula => ({
  id: 'f',
  name: 'Plain',
  version: 1,
  note: '',
  entries: [COCONUT, OLIVE, WATER, SODA],
  blends: [],
  wishes: { superfat: '5', lye: { kind: 'concentration', percent: '33' } },
  size: null,
  moulds: [],
  limits: { superfat: null, lye: null },
  temperatures: null,
  references: [],
  ...given,
});

/** The entries with one of them changed. */
export const withEntry = (id: string, change: Partial<Entry>, entries: readonly Entry[] = formula().entries): readonly Entry[] =>
  entries.map((one) => (one.id === id ? { ...one, ...change } : one));

export const workshop = (given: Partial<PlanContext> = {}): PlanContext => ({ ...SAMPLE_WORKSHOP, ...given });

/** The plan, or a failure that says which problems stand against it. */
export const planned = (of: Formula, context: PlanContext = SAMPLE_WORKSHOP): Planned => {
  const answer = planOf(of, context);
  if (answer.kind !== 'plan') throw new Error(JSON.stringify(answer.problems));
  return answer;
};

export const problemsOf = (of: Formula, context: PlanContext = SAMPLE_WORKSHOP): readonly Problem[] => {
  const answer = planOf(of, context);
  return answer.kind === 'plan' ? [] : answer.problems;
};

export const grams = (plan: Planned, entryId: string): number => {
  const line = plan.lines.find((one) => one.entry === entryId);
  if (line === undefined) throw new Error(`no line ${entryId}`);
  return line.grams;
};

export const codes = (plan: Planned): readonly string[] => plan.warnings.map(({ code }) => code);

/** Lye made ahead, and what of it stands there. */
export const STOCK_LYE: Preparation = {
  id: 'stock',
  name: 'Stock lye',
  note: null,
  parts: [
    { material: 'sodium-hydroxide', lot: 'lot-soda-06', percent: '33' },
    { material: 'water', lot: null, percent: '67' },
  ],
};
export const STOCK_LOT = { id: 'lot-stock', mark: 'SL 1', material: 'stock', certificate: null, files: [] };
