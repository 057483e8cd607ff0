'use client';
import { useState } from 'react';
import { massesToShares, sharesToMasses, withCatalogue } from '#lib/work/formula/index';
import type { Problem, Reworked } from '#lib/work/formula/index';
import { problemText } from '../../_ui/problem-messages';
import { on } from '../classes';
import { messages } from '../messages-more';
import { useSheet } from './use-sheet';

const { measures: words } = messages;

/** The same soap typed the other way: as heavy as it is now. */
export function OtherMeasure() {
  const { formula, change, workshop } = useSheet();
  const [failed, setFailed] = useState<{ readonly of: unknown; readonly problems: readonly Problem[] } | null>(null);
  const take = (reworked: Reworked): void => {
    if (reworked.kind === 'problems') return setFailed({ of: formula, problems: reworked.problems });
    setFailed(null);
    change(reworked.formula, 'entries.measure');
  };
  // Typed on since: it may be clear by now.
  const problems = failed?.of === formula ? failed.problems : [];
  return (
    <>
      <button type="button" className={on('act')} onClick={() => take(sharesToMasses(formula, withCatalogue(workshop.context)))}>
        {words.weights}
      </button>
      <button type="button" className={on('act')} onClick={() => take(massesToShares(formula, withCatalogue(workshop.context)))}>
        {words.shares}
      </button>
      {problems.length === 0 ? null : (
        <p role="alert" className={on('warn')}>
          {words.not} {[...new Set(problems.map(problemText))].join(' ')}
        </p>
      )}
    </>
  );
}
