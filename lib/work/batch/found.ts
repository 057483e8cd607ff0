import type { Entry } from './entries';

/** What a batch is found by: its mark, its formula's name, its materials, the marks of their lots, and everything a person wrote or said. */
export interface Findable {
  readonly mark: string;
  readonly formula: string;
  readonly materials: readonly string[];
  readonly lots: readonly string[];
  readonly notes: readonly string[];
}

const NOTHING: Findable = { mark: '', formula: '', materials: [], lots: [], notes: [] };

/** Where the bodies of entries hold words of a person, or a reason by its code. */
const SAID = ['text', 'note', 'reason', 'why', 'caption', 'is'] as const;

const added = (to: readonly string[], more: readonly string[]): readonly string[] => {
  const fresh = [...new Set(more)].filter((one) => one.trim() !== '' && !to.includes(one));
  return fresh.length === 0 ? to : [...to, ...fresh];
};

/** One entry further; the same object when the entry says nothing new. Kinds are not told apart: a new one is found by what it says. */
export const foundBy = (before: Findable | null, entry: Entry): Findable => {
  const known = before ?? NOTHING;
  if (entry.kind === 'batch-started') {
    const { mark, plan } = entry.body;
    return {
      mark,
      formula: plan.formula.name,
      materials: added(
        [],
        plan.lines.map(({ material }) => material.name),
      ),
      lots: added(
        [],
        plan.lines.flatMap(({ lot }) => lot?.mark ?? []),
      ),
      notes: [],
    };
  }
  const body: Readonly<Record<string, unknown>> = entry.body;
  const lots = added(known.lots, markOf(body['lot']));
  const notes = added(
    known.notes,
    SAID.flatMap((key) => (typeof body[key] === 'string' ? [body[key]] : [])),
  );
  return lots === known.lots && notes === known.notes ? known : { ...known, lots, notes };
};

const markOf = (lot: unknown): readonly string[] => {
  const mark: unknown = typeof lot === 'object' && lot !== null ? (lot as { readonly mark?: unknown }).mark : null;
  return typeof mark === 'string' ? [mark] : [];
};
