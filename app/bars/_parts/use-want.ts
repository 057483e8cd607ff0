'use client';
import { useState } from 'react';
import type { BarsRow, BarsWantAsk } from '#lib/protocol/bars';
import type { HttpProblem } from '#lib/protocol/http';
import { barsApi } from '../../_ui/bars-api';
import { problemOf } from './say';

export interface Wanting {
  readonly busy: boolean;
  readonly problem: HttpProblem | null;
  /** Whether it was done. */
  readonly want: (want: BarsWantAsk) => Promise<boolean>;
}

/** Says what is wanted of one lot, and what came of it. */
export const useWant = (row: Pick<BarsRow, 'id' | 'version'>, onSaid: () => void): Wanting => {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  return {
    busy,
    problem,
    async want(want) {
      setBusy(true);
      const wrong = problemOf(await barsApi.want(row.id, row.version, want));
      setProblem(wrong);
      setBusy(false);
      onSaid();
      return wrong === null;
    },
  };
};
