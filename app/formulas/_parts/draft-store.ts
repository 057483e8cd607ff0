import type { Formula } from '#lib/work/formula/index';
import { formulaSchema } from '#lib/work/formula/index';

/** What this screen holds of a formula that is not kept yet. */
export interface HeldDraft {
  readonly formula: Formula;
  /** The newest version kept when this work began; 0 for a formula never kept. */
  readonly base: number;
}

const PREFIX = 'potwatch.formula.';
const PROBE = 'potwatch.probe';

/** A browser without storage keeps nothing; the page goes on. */
const storage = (): Storage | null => {
  try {
    return globalThis.localStorage;
  } catch {
    return null;
  }
};

/** One without a name yet is a draft still. */
const isFormula = (formula: Formula): boolean =>
  formulaSchema.safeParse({ ...formula, name: formula.name === '' ? '-' : formula.name }).success;

const parsed = (text: string | null): HeldDraft | null => {
  if (text === null) return null;
  try {
    const { formula, base } = JSON.parse(text) as HeldDraft;
    return isFormula(formula) && Number.isSafeInteger(base) ? { formula, base } : null;
  } catch {
    return null;
  }
};

/** Drafts of this screen, by the formula's id, so that a page closed or a machine gone loses nothing. */
export const draftStore = {
  read: (id: string): HeldDraft | null => parsed(storage()?.getItem(PREFIX + id) ?? null),
  /** Whether this screen can hold anything. */
  works(): boolean {
    try {
      storage()?.setItem(PROBE, PROBE);
      return storage()?.getItem(PROBE) === PROBE;
    } catch {
      return false;
    }
  },
  /** Where it cannot be held the page has said so already. */
  write({ formula, base }: HeldDraft): void {
    try {
      storage()?.setItem(PREFIX + formula.id, JSON.stringify({ formula, base }));
    } catch {
      // A full storage: what is typed is on the page still.
    }
  },
  drop: (id: string): void => storage()?.removeItem(PREFIX + id),
  all(): readonly HeldDraft[] {
    const held = storage();
    if (held === null) return [];
    return Object.keys(held).flatMap((key) => {
      const draft = key.startsWith(PREFIX) ? parsed(held.getItem(key)) : null;
      return draft === null ? [] : [draft];
    });
  },
} as const;
