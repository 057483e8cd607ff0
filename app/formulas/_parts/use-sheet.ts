'use client';
import { createContext, useCallback, useContext, useEffect, useMemo, useState } from 'react';
import type { WorkshopPage } from '#lib/protocol/shelf';
import type { Derivation, Formula, Planned, PlanAnswer, Problem } from '#lib/work/formula/index';
import { problemText } from '../../_ui/problem-messages';
import { changed, draftOf, redone, rested, undone } from './draft';
import type { Draft } from './draft';
import { draftStore } from './draft-store';
import type { HeldDraft } from './draft-store';
import { materialsOf } from './materials';
import type { Materials } from './materials';
import type { Kept } from './use-kept';
import { useKept } from './use-kept';
import { usePlan } from './use-plan';
import { useWorkshop } from './use-workshop';

/** Everything the parts of a sheet read and do. */
export interface Sheet extends Kept {
  readonly formula: Formula;
  readonly draft: Draft;
  readonly workshop: WorkshopPage;
  /** Something of the workshop came from another screen since the sheet was opened. */
  readonly arrived: boolean;
  /** A version kept on another screen since, above which nothing of this one stands yet; `null`: none. */
  readonly newer: number | null;
  readonly materials: Materials;
  readonly answer: PlanAnswer | null;
  readonly plan: Planned | null;
  /** The answer belongs to the formula as it stands. */
  readonly fresh: boolean;
  /** Something typed is not kept yet. */
  readonly dirty: boolean;
  /** This screen holds the draft. */
  readonly held: boolean;
  readonly change: (formula: Formula, field: string) => void;
  /** A field was left: typing in it again is another step. */
  readonly rest: () => void;
  readonly undo: () => void;
  readonly redo: () => void;
  /** What is wrong at a place of the formula, in words; empty when nothing is. */
  readonly wrongAt: (path: string) => string;
  /** The same for that place alone, without what stands inside it. */
  readonly wrongIn: (path: string) => string;
  readonly derivation: (id: string | null) => Derivation | undefined;
  /** Nothing is said against a figure, or something that asks to be looked at. */
  readonly verdictOf: (id: string) => 'within' | 'check';
  /** Tells the slips of one place of the page from those of another. */
  readonly slips: string;
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
export const useNewSheet = (start: HeldDraft, dirtyAtFirst: boolean, first: WorkshopPage): Sheet => {
  const [draft, setDraft] = useState<Draft>(() => draftOf(start.formula, start.base));
  const [clean, setClean] = useState<Formula | null>(dirtyAtFirst ? null : start.formula);
  const [held] = useState(() => draftStore.works());
  const [open, setOpen] = useState<string | null>(null);
  const { workshop, arrived } = useWorkshop(first);
  const { formula, base } = draft;
  const dirty = formula !== clean;
  const materials = useMemo(() => materialsOf(workshop.context), [workshop.context]);
  const { answer, fresh } = usePlan(formula, workshop.context);
  const kept = useKept({ draft, setDraft, setClean, habits: workshop.habits });
  const there = workshop.formulas[formula.id] ?? 0;
  const newer = base > 0 && there > base ? there : null;
  useEffect(() => {
    if (dirty) draftStore.write({ formula, base });
    else draftStore.drop(formula.id);
  }, [dirty, formula, base]);
  const change = useCallback((next: Formula, field: string) => setDraft((before) => changed(before, next, field)), []);
  const rest = useCallback(() => setDraft(rested), []);
  const plan = answer?.kind === 'plan' ? answer : null;
  return {
    ...kept,
    formula,
    draft,
    workshop,
    arrived,
    newer,
    materials,
    answer,
    plan,
    fresh,
    dirty,
    held,
    change,
    rest,
    undo: () => setDraft(undone),
    redo: () => setDraft(redone),
    wrongAt: (place) => wordsOf(answer, (path) => isAt(path, place)),
    wrongIn: (place) => wordsOf(answer, (path) => path === place),
    derivation: (id) => plan?.derivations.find((one) => one.id === id),
    verdictOf: (id) => (plan?.warnings.some((one) => one.derivation === id && one.level !== 'note') === true ? 'check' : 'within'),
    slips: '',
    open,
    toggle: (id) => setOpen((before) => (before === id ? null : id)),
  };
};
