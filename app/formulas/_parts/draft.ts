import { newEntry } from '#lib/work/formula/index';
import type { Entry, Formula, Part } from '#lib/work/formula/index';

/** A formula being worked on: as it stands, what it was kept as, and the way back. Nothing is lost by typing. */
export interface Draft {
  readonly formula: Formula;
  /** The newest version kept when this work began; 0 for a formula never kept. */
  readonly base: number;
  /** Earlier states, oldest first, each with what the change after it was about. */
  readonly past: readonly Step[];
  /** States taken back, the nearest last. */
  readonly future: readonly Step[];
}

interface Step {
  readonly formula: Formula;
  /** Typing on in one field is one step back, not one a letter. */
  readonly field: string;
}

/** As many steps back as a day's work has. */
const STEPS = 200;

export const draftOf = (formula: Formula, base: number): Draft => ({ formula, base, past: [], future: [] });

/** The draft with another formula in it. `field` names what was changed, for example "entries.olive.amount". */
export const changed = (draft: Draft, formula: Formula, field: string): Draft => {
  if (formula === draft.formula) return draft;
  const typingOn = draft.past.at(-1)?.field === field && draft.future.length === 0;
  const past = typingOn ? draft.past : [...draft.past, { formula: draft.formula, field }].slice(-STEPS);
  return { ...draft, formula, past, future: [] };
};

/** One step back; the same draft when there is none. */
export const undone = (draft: Draft): Draft => {
  const step = draft.past.at(-1);
  if (step === undefined) return draft;
  const future = [...draft.future, { formula: draft.formula, field: step.field }];
  return { ...draft, formula: step.formula, past: draft.past.slice(0, -1), future };
};

/** What was taken back last, again. */
export const redone = (draft: Draft): Draft => {
  const step = draft.future.at(-1);
  if (step === undefined) return draft;
  const past = [...draft.past, { formula: draft.formula, field: step.field }];
  return { ...draft, formula: step.formula, past, future: draft.future.slice(0, -1) };
};

/** After it was kept as `version`: the way back stays. */
export const kept = (draft: Draft, version: number): Draft => ({ ...draft, base: version, formula: { ...draft.formula, version } });

/** A field left and come to again is another step. */
export const rested = (draft: Draft): Draft => {
  const last = draft.past.at(-1);
  return last === undefined || last.field === '' ? draft : { ...draft, past: [...draft.past.slice(0, -1), { ...last, field: '' }] };
};

export const withEntry = (formula: Formula, id: string, change: Partial<Entry>): Formula => ({
  ...formula,
  entries: formula.entries.map((entry) => (entry.id === id ? { ...entry, ...change } : entry)),
});

/** An entry weighed by what its bottle loses, or again as usual. */
export const withWeighing = (formula: Formula, id: string, byLoss: boolean): Formula => ({
  ...formula,
  entries: formula.entries.map((entry) => {
    if (entry.id !== id) return entry;
    const { weighed: _, ...usual } = entry;
    return byLoss ? { ...usual, weighed: 'loss' } : usual;
  }),
});

/** An entry with nothing said yet, at the end of its part. */
export const withNewEntry = (formula: Formula, part: Part, id: string): Formula => {
  const after = formula.entries.findLastIndex((one) => one.part === part);
  const at = after === -1 ? formula.entries.length : after + 1;
  return { ...formula, entries: [...formula.entries.slice(0, at), newEntry(id, part), ...formula.entries.slice(at)] };
};

/** Without an entry, and without its place in any blend. */
export const withoutEntry = (formula: Formula, id: string): Formula => ({
  ...formula,
  entries: formula.entries.filter((entry) => entry.id !== id),
  blends: formula.blends.map((blend) => ({ ...blend, entries: blend.entries.filter((entry) => entry !== id) })),
});

/** An id for an entry: the material's, or that with a number when it is taken. */
export const entryId = (formula: Formula, material: string): string => {
  const taken = new Set(formula.entries.map(({ id }) => id));
  if (!taken.has(material)) return material;
  let n = 2;
  while (taken.has(`${material}-${n}`)) n += 1;
  return `${material}-${n}`;
};
