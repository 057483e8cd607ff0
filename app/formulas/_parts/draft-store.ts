import type { Formula } from '#lib/work/formula/index';
import { formulaSchema } from '#lib/work/formula/index';
import { canHold, heldOf } from '../../_ui/held';

/** What this screen holds of a formula that is not kept yet. */
export interface HeldDraft {
  readonly formula: Formula;
  /** The newest version kept when this work began; 0 for a formula never kept. */
  readonly base: number;
}

const LONGEST = 40;
const DAY = '2000-01-01';

/**
 * The same with every text short and every number whole: what is wrong in a field is the field's to say, and loses no draft. What then is
 * no formula is another program's, or cut off.
 */
const softened = (value: unknown): unknown => {
  if (typeof value === 'string') return /^[0-9a-f]{64}$/.test(value) ? value : value.slice(0, LONGEST);
  if (typeof value === 'number') return Math.max(1, Math.trunc(value));
  if (Array.isArray(value)) return value.map(softened);
  if (typeof value !== 'object' || value === null) return value;
  const fields = Object.entries(value).map(([key, one]) => [key, key === 'date' ? DAY : softened(one)]);
  return Object.fromEntries(fields) as object;
};

/** One without a name yet is a draft still. */
const isFormula = (formula: Formula): boolean =>
  formulaSchema.safeParse(softened({ ...formula, name: formula.name === '' ? '-' : formula.name })).success;

const held = heldOf<HeldDraft>('potwatch.formula.', (value) => {
  const { formula, base } = value as HeldDraft;
  return isFormula(formula) && Number.isSafeInteger(base) ? { formula, base } : null;
});

/** Drafts of this screen, by the formula's id. */
export const draftStore = {
  read: held.read,
  works: canHold,
  /** Where it cannot be held the page has said so already. */
  write: ({ formula, base }: HeldDraft): void => held.write(formula.id, { formula, base }),
  drop: held.drop,
  all: (): readonly HeldDraft[] => held.all().map(([, draft]) => draft),
} as const;
