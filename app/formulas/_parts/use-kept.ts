import { useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import type { Formula } from '#lib/work/formula/index';
import type { Habits } from '#lib/work/shelf/documents';
import { shelfApi } from '../../_ui/shelf-api';
import { changed, kept } from './draft';
import type { Draft } from './draft';
import { rememberWishes } from './habits';

export interface Kept {
  readonly problem: HttpProblem | null;
  /** Somebody kept another version meanwhile. */
  readonly clash: boolean;
  /** Whether there is another version now. */
  readonly keep: (note: string) => Promise<boolean>;
  /** After a clash: what is typed here goes above the newest version. */
  readonly aboveNewest: (note: string) => Promise<boolean>;
  /** What is typed here makes way for the newest version; undo brings it back. */
  readonly drop: () => Promise<void>;
  /** An earlier version as the next one: nothing is lost, and undo brings back what stood here. */
  readonly bringBack: (earlier: Formula, note: string) => Promise<void>;
  /** Out of the lists; batches made of it still find it, and what is typed and not kept stays on this screen. */
  readonly putAway: () => Promise<boolean>;
}

interface Parts {
  readonly draft: Draft;
  readonly setDraft: (change: (before: Draft) => Draft) => void;
  readonly setClean: (formula: Formula) => void;
  readonly habits: Habits;
}

const CHANGED = 409;

/** Keeping a sheet on the shelf of the workshop, and what came of it. */
export const useKept = ({ draft, setDraft, setClean, habits }: Parts): Kept => {
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const [clash, setClash] = useState(false);
  const { formula, base } = draft;

  const send = async (expected: number, document: Formula | null, note: string): Promise<number | null> => {
    const result = await shelfApi.put('formula', formula.id, expected, document, note);
    setClash(!result.ok && result.status === CHANGED);
    const fields = result.fields.map(({ path }) => path).join(', ');
    setProblem(
      result.ok ? null : { ...result.problem, error: fields === '' ? result.problem.error : `${result.problem.error} (${fields})` },
    );
    return result.ok ? result.value.version : null;
  };
  const put = async (expected: number, note: string): Promise<boolean> => {
    const version = await send(expected, { ...formula, version: expected + 1 }, note);
    if (version === null) return false;
    setDraft((before) => {
      const after = kept(before, version);
      // Typed on meanwhile: that is not kept.
      if (before.formula === formula) setClean(after.formula);
      return after;
    });
    await rememberWishes(formula, habits);
    return true;
  };
  /** What stood last, with the newest version's number: a formula put away meanwhile still shows what it was. */
  const newest = async (): Promise<{ version: number; document: Formula | null } | null> => {
    const there = await shelfApi.document('formula', formula.id);
    if (!there.ok) setProblem(there.problem);
    const versions = there.ok ? there.value.versions : [];
    const [last, stood] = [versions.at(-1), versions.findLast(({ document }) => document !== null)];
    return last === undefined ? null : { version: last.version, document: (stood?.document ?? null) as unknown as Formula | null };
  };
  const stand = (document: Formula, version: number, field: string): void => {
    setDraft((before) => ({ ...changed(before, document, field), base: version }));
    setClean(document);
  };
  return {
    problem,
    clash,
    keep: (note) => put(base, note),
    async aboveNewest(note) {
      const last = await newest();
      return last !== null && put(last.version, note);
    },
    async drop() {
      const last = await newest();
      if (last === null || last.document === null) return;
      setClash(false);
      setProblem(null);
      stand(last.document, last.version, 'dropped');
    },
    async bringBack(earlier, note) {
      const document = { ...earlier, version: base + 1 };
      const version = await send(base, document, note);
      if (version !== null) stand({ ...document, version }, version, `back.${version}`);
    },
    async putAway() {
      return (await send(base, null, '')) !== null;
    },
  };
};
