'use client';
import { useMemo } from 'react';
import type { BarsRow } from '#lib/protocol/bars';
import type { HttpProblem } from '#lib/protocol/http';
import type { ShelfList } from '#lib/protocol/shelf';
import { USUAL_CURE } from '#lib/work/bars/documents';
import type { CureKept, UnmouldKept } from '#lib/work/bars/documents';
import { barsApi } from '../bars-api';
import { shelfApi } from '../shelf-api';
import { SHARED_EVERY_MS, useAsked } from '../use-asked';
import type { Asked } from '../use-asked';

/** Rows that teach: how long logs stood, how bars dried. */
const LATE = 200;

export interface BarsThere {
  /** Of which something is left to be made, kept or sold; newest first. */
  readonly open: readonly BarsRow[];
  /** The newest of all, those that are gone among them. */
  readonly all: readonly BarsRow[];
  readonly rule: CureKept;
  readonly unmould: ReadonlyMap<string, UnmouldKept>;
}

export interface BarsAsked {
  readonly there: BarsThere | null;
  readonly problem: HttpProblem | null;
  readonly again: () => void;
}

const listOf = <T>(asked: Asked<ShelfList>): readonly T[] =>
  asked.state === 'there' ? asked.value.items.map(({ document }) => document as unknown as T) : [];

/** Every bar lot that is not gone, and what is known to judge it by. */
export const useBars = (): BarsAsked => {
  const open = useAsked(barsApi.open, { everyMs: SHARED_EVERY_MS });
  const known = useAsked(() => barsApi.list(null, LATE), { revision: revisionOf(open.asked) });
  const cure = useAsked(() => shelfApi.list('cure'));
  const unmould = useAsked(() => shelfApi.list('unmould'));
  const there = useMemo((): BarsThere | null => {
    if (open.asked.state !== 'there' || known.asked.state !== 'there' || cure.asked.state === 'asking') return null;
    return {
      open: open.asked.value.bars,
      all: known.asked.value.bars,
      rule: listOf<CureKept>(cure.asked)[0] ?? USUAL_CURE,
      unmould: new Map(listOf<UnmouldKept>(unmould.asked).map((one) => [one.id, one])),
    };
  }, [open.asked, known.asked, cure.asked, unmould.asked]);
  const again = (): void => {
    open.again();
    known.again();
  };
  return { there, problem: open.asked.state === 'asking' ? null : open.asked.problem, again };
};

/** Another entry of any lot is another revision. */
const revisionOf = (asked: Asked<{ readonly bars: readonly BarsRow[] }>): string =>
  asked.state === 'there' ? asked.value.bars.map(({ id, version }) => `${id} ${version}`).join() : '';
