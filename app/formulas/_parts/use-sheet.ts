'use client';
import { createContext, useCallback, useContext, useEffect, useMemo, useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import type { WorkshopPage } from '#lib/protocol/shelf';
import type { Derivation, Formula, Planned, PlanAnswer, Problem } from '#lib/work/formula/index';
import { shelfApi } from '../../_ui/shelf-api';
import { problemText } from '../../_ui/problem-messages';
import { changed, draftOf, kept, redone, rested, undone } from './draft';
import type { Draft } from './draft';
import { draftStore } from './draft-store';
import type { HeldDraft } from './draft-store';
import { rememberWishes } from './habits';
import { materialsOf } from './materials';
import type { Materials } from './materials';
import { usePlan } from './use-plan';

/** Everything the parts of a sheet read and do. */
export interface Sheet {
  readonly formula: Formula;
  readonly draft: Draft;
  readonly workshop: WorkshopPage;
  readonly materials: Materials;
  readonly answer: PlanAnswer | null;
  readonly plan: Planned | null;
  /** The answer belongs to the formula as it stands. */
  readonly fresh: boolean;
  /** Something typed is not kept yet. */
  readonly dirty: boolean;
  /** This screen holds the draft. */
  readonly held: boolean;
  readonly problem: HttpProblem | null;
  /** Somebody kept another version meanwhile. */
  readonly clash: boolean;
  readonly change: (formula: Formula, field: string) => void;
  /** A field was left: typing in it again is another step. */
  readonly rest: () => void;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly keep: (note: string) => Promise<void>;
  /** After a clash: what is typed here goes above the newest version. */
  readonly aboveNewest: () => Promise<void>;
  readonly drop: () => Promise<void>;
  /** What is wrong at a place of the formula, in words; empty when nothing is. */
  readonly wrongAt: (path: string) => string;
  /** The same for that place alone, without what stands inside it. */
  readonly wrongIn: (path: string) => string;
  readonly derivation: (id: string | null) => Derivation | undefined;
  readonly open: string | null;
  readonly toggle: (id: string) => void;
}

const Context = createContext<Sheet | null>(null);
export const SheetProvider = Context.Provider;

/** @throws Error outside of a sheet */
export const useSheet = (): Sheet => {
  const sheet = useContext(Context);
  if (sheet === null) throw new Error('outside of a sheet');
  return sheet;
};

const isAt = (path: string, place: string): boolean => path === place || path.startsWith(`${place}.`) || path.startsWith(`${place}[`);

export const problemsOf = (answer: PlanAnswer | null): readonly Problem[] => (answer?.kind === 'problems' ? answer.problems : []);

const wordsOf = (answer: PlanAnswer | null, fits: (path: string) => boolean): string =>
  [...new Set(problemsOf(answer).flatMap((one) => (fits(one.path) ? [problemText(one)] : [])))].join(' ');

/** A sheet over what was kept, or what this screen held of it. */
export const useNewSheet = (start: HeldDraft, dirtyAtFirst: boolean, workshop: WorkshopPage): Sheet => {
  const [draft, setDraft] = useState<Draft>(() => draftOf(start.formula, start.base));
  const [clean, setClean] = useState<Formula | null>(dirtyAtFirst ? null : start.formula);
  const [held] = useState(() => draftStore.works());
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const [clash, setClash] = useState(false);
  const [open, setOpen] = useState<string | null>(null);
  const { formula, base } = draft;
  const dirty = formula !== clean;
  const materials = useMemo(() => materialsOf(workshop.context), [workshop]);
  const { answer, fresh } = usePlan(formula, workshop.context);
  useEffect(() => {
    if (dirty) draftStore.write({ formula, base });
    else draftStore.drop(formula.id);
  }, [dirty, formula, base]);
  const change = useCallback((next: Formula, field: string) => setDraft((before) => changed(before, next, field)), []);
  const rest = useCallback(() => setDraft(rested), []);

  const put = async (expected: number, note: string): Promise<void> => {
    const document: Formula = { ...formula, version: expected + 1 };
    const result = await shelfApi.put('formula', formula.id, expected, document, note);
    setClash(!result.ok && result.status === 409);
    if (!result.ok)
      return setProblem({ ...result.problem, error: [result.problem.error, ...result.fields.map(({ path }) => path)].join(' ') });
    setProblem(null);
    setDraft((before) => {
      const after = kept(before, result.value.version);
      // Typed on meanwhile: that is not kept.
      if (before.formula === formula) setClean(after.formula);
      return after;
    });
    return rememberWishes(formula, workshop.habits);
  };
  const newest = async (): Promise<{ version: number; document: Formula | null } | null> => {
    const there = await shelfApi.document('formula', formula.id);
    if (!there.ok) setProblem(there.problem);
    const last = there.ok ? there.value.versions.at(-1) : undefined;
    return last === undefined ? null : { version: last.version, document: last.document as unknown as Formula | null };
  };
  return {
    formula,
    draft,
    workshop,
    materials,
    answer,
    plan: answer?.kind === 'plan' ? answer : null,
    fresh,
    dirty,
    held,
    problem,
    clash,
    change,
    rest,
    undo: () => setDraft(undone),
    redo: () => setDraft(redone),
    keep: (note) => put(base, note),
    async aboveNewest() {
      const last = await newest();
      if (last !== null) await put(last.version, '');
    },
    async drop() {
      const last = await newest();
      if (last?.document === null || last === null) return;
      setClash(false);
      setProblem(null);
      setDraft((before) => ({ ...changed(before, last.document as Formula, 'dropped'), base: last.version }));
      setClean(last.document);
    },
    wrongAt: (place) => wordsOf(answer, (path) => isAt(path, place)),
    wrongIn: (place) => wordsOf(answer, (path) => path === place),
    derivation: (id) => (answer?.kind === 'plan' ? answer.derivations.find((one) => one.id === id) : undefined),
    open,
    toggle: (id) => setOpen((before) => (before === id ? null : id)),
  };
};
