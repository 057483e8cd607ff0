'use client';
import Link from 'next/link';
import { useMemo, useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import { dayOf } from '#lib/units/day';
import type { Formula, Lot, Size } from '#lib/work/formula/index';
import { faultOf, firstOut } from '#lib/work/lots/fitness';
import type { Prepared } from '#lib/work/shelf/documents';
import { lotFor } from '#lib/work/shelf/lot-for';
import { Choice, TextField } from '../../_ui/fields';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { shelfApi } from '../../_ui/shelf-api';
import { on } from '../classes';
import { messages } from '../messages-plan';
import { problemText } from '../../_ui/problem-messages';
import { freshId } from './fresh';
import { LinesTable } from './lines-table';
import { OwnWorkings } from './own-workings';
import { SizeFields } from './size-fields';
import { usePlan } from './use-plan';
import { problemsOf, useSheet } from './use-sheet';
import { WarningsOf } from './warnings-section';

/** First expired, first out, each with what speaks for or against it. */
const lotChoices = (lots: readonly Lot[]): readonly (readonly [string, string])[] => {
  const { lot: words } = messages.ready;
  const today = dayOf(Date.now(), 0 - new Date().getTimezoneOffset());
  const fit = lots.filter(({ state }) => state !== 'used-up');
  return firstOut(fit, today).map((lot, at) => {
    const fault = faultOf(lot, today);
    const until = lot.bestBefore === undefined ? [] : [words.until(lot.bestBefore)];
    const said = fault === null ? [...(at === 0 && fit.length > 1 ? [words.first] : []), ...until] : [words.faults[fault]];
    return [lot.id, [lot.mark, ...said].join(', ')] as const;
  });
};

type Saved = { readonly state: 'not' } | { readonly state: 'done' } | { readonly state: 'failed'; readonly problem: HttpProblem };

/** Paths whose problems stand beside their fields. */
const BESIDE: ReadonlySet<string> = new Set(['size', 'size.count', 'size.value']);

/** A batch chosen on paper: how large, of which lots. The bench starts from it. */
export function Ready({ onLeave }: { readonly onLeave: () => void }) {
  const { formula, draft, dirty, workshop, materials } = useSheet();
  const [size, setSize] = useState<Size | null>(null);
  const [lots, setLots] = useState<Prepared['lots']>({});
  const [note, setNote] = useState('');
  const [saved, setSaved] = useState<Saved>({ state: 'not' });
  const chosen = useMemo<Formula>(
    () => ({
      ...formula,
      size: size ?? formula.size,
      entries: formula.entries.map((entry) => ({ ...entry, lot: lotFor(lots, entry) })),
    }),
    [formula, size, lots],
  );
  const { answer, fresh } = usePlan(chosen, workshop.context);
  const problems = problemsOf(answer);
  const { ready } = messages;
  const save = async (): Promise<void> => {
    const prepared: Prepared = { id: freshId('batch'), formula: { id: formula.id, version: draft.base }, size, lots, note };
    const result = await shelfApi.put('prepared', prepared.id, 0, prepared);
    setSaved(result.ok ? { state: 'done' } : { state: 'failed', problem: result.problem });
  };
  const wrong = (place: string): string =>
    [...new Set(problems.flatMap((one) => (size !== null && one.path === place ? [problemText(one)] : [])))].join(' ');
  const changed = (next: () => void): void => {
    setSaved({ state: 'not' });
    next();
  };
  const plan = answer?.kind === 'plan' ? answer : null;
  const asFormula = size === null && Object.keys(lots).length === 0;
  return (
    <>
      <PaperSection name={ready.title} note={<p>{ready.note}</p>}>
        <div className={on('form unprinted')}>
          <SizeFields id="ready" size={size} typed={ready.asFormula} wrong={wrong} onChange={(next) => changed(() => setSize(next))} />
          {formula.entries.map((entry) => {
            const there = materials.lotsOf(entry.material);
            if (there.length === 0) return null;
            return (
              <Choice
                key={entry.id}
                id={`lot-${entry.id}`}
                label={materials.nameOf(entry.material)}
                value={lotFor(lots, entry) ?? ''}
                options={[['', ready.atBench], ...lotChoices(there)]}
                onChange={(id) => changed(() => setLots({ ...lots, [entry.id]: id === '' ? null : id }))}
              />
            );
          })}
          <TextField id="ready-note" label={ready.remark} value={note} onChange={(text) => changed(() => setNote(text))} />
        </div>
        {problems
          .filter((one) => !BESIDE.has(one.path) || wrong(one.path) === '')
          .map((one) => (
            <p key={`${one.path} ${one.code}`} className={on('warn')}>
              {problemText(one)}
            </p>
          ))}
        {plan === null ? null : <LinesTable plan={plan} />}
        {plan !== null && !plan.mayStart ? <p className={on('warn')}>{ready.must}</p> : null}
        {dirty || draft.base === 0 ? <p className={on('warn')}>{ready.keepFirst}</p> : null}
        {saved.state === 'failed' ? <Problem problem={saved.problem} /> : null}
        <div className={on('acts')}>
          {saved.state === 'done' ? (
            <>
              <output>{ready.done}</output>
              <Link className={on('act first')} href="/bench" prefetch={false}>
                {ready.bench}
              </Link>
            </>
          ) : (
            <button
              type="button"
              className={on('act first')}
              disabled={dirty || draft.base === 0 || plan === null || !fresh || !plan.mayStart}
              onClick={() => void save()}
            >
              {ready.save}
            </button>
          )}
          <button type="button" className={on('act')} onClick={onLeave}>
            {ready.leave}
          </button>
        </div>
      </PaperSection>
      {plan === null || asFormula ? null : (
        <OwnWorkings derivations={plan.derivations}>
          <WarningsOf plan={plan} name={ready.warnings} />
        </OwnWorkings>
      )}
    </>
  );
}
