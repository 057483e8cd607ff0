'use client';
import { useState } from 'react';
import { TextField } from '../../_ui/fields';
import { Problem as ProblemWords } from '../../_ui/problem';
import { showIn } from '#lib/words/quantities';
import { PaperTitle } from '../../_ui/section';
import type { Derivation, Problem } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { problemText } from '../../_ui/problem-messages';
import { OwnWorkings } from './own-workings';
import { aboutDocument, isPlaced } from './placed';
import { saveFormula, saveLines } from './save-file';
import { problemsOf, useSheet } from './use-sheet';
import { Figure, Slip } from './workings';

const NONE: readonly Derivation[] = [];

/** Whose sheet this is, what it comes to, and everything that can be done with the whole of it. */
export function SheetHead() {
  const { formula, draft, plan, answer, dirty, held, arrived, newer, workshop, change, rest, wrongAt } = useSheet();
  const display = useDisplay();
  const show = showIn(display);
  const { lead } = messages;
  const problems = problemsOf(answer);
  const elsewhere = problems.filter((one) => !isPlaced(one, formula));
  const aboutOf = (one: Problem): string => {
    const about = aboutDocument(one, workshop.context);
    return about === null ? '' : `${about}: `;
  };
  const words =
    plan === null ? (
      answer === null ? (
        lead.asking
      ) : (
        lead.not(problems.length)
      )
    ) : (
      <>
        <Figure of="fats">{show.mass(Math.round(1000 * plan.figures.fats), 100)}</Figure>
        {lead.fats}
        <Figure of="batter">{show.mass(plan.total, 100)}</Figure>
        {lead.batter}
      </>
    );
  return (
    <OwnWorkings derivations={plan?.derivations ?? NONE}>
      <PaperTitle
        title={formula.name === '' ? messages.unnamed : formula.name}
        lead={
          <span className={on('unprinted')} data-answer={answer?.kind ?? 'none'}>
            {words}
          </span>
        }
        side={
          <>
            <p className={on('id')}>{messages.standing(draft.base, dirty)}</p>
            {dirty && !held ? <p>{messages.notHeld}</p> : null}
            <output>{[...(arrived ? [messages.arrived] : []), ...(newer === null ? [] : [messages.newer(newer)])].join(' ')}</output>
          </>
        }
      >
        <Slip ids={['fats', 'batter']} />
        <div className={on('form gap unprinted')}>
          <TextField
            id="name"
            label={messages.name}
            value={formula.name}
            error={wrongAt('name')}
            onChange={(name) => change({ ...formula, name }, 'name')}
          />
          <div className={on('whole')} onBlur={rest}>
            <TextField id="note" label={messages.note} value={formula.note} onChange={(note) => change({ ...formula, note }, 'note')} />
          </div>
        </div>
        {elsewhere.length === 0 ? null : (
          <p className={on('warn')}>
            {messages.elsewhere}: {elsewhere.map((one) => `${aboutOf(one)}${problemText(one)}`).join(' ')}
          </p>
        )}
        <Acts />
      </PaperTitle>
    </OwnWorkings>
  );
}

function Acts() {
  const sheet = useSheet();
  const { formula, draft, dirty, plan, problem, clash, newer, workshop } = sheet;
  const [note, setNote] = useState('');
  const [busy, setBusy] = useState(false);
  const { acts } = messages;
  const during = async (act: () => Promise<void>): Promise<void> => {
    setBusy(true);
    await act();
    setBusy(false);
  };
  /** Why it was changed stays in its field until a version has it. */
  const keepBy = (put: (note: string) => Promise<boolean>): Promise<void> =>
    during(async () => {
      if (await put(note)) setNote('');
    });
  const may = dirty && !busy && formula.name.trim() !== '';
  return (
    <>
      {draft.base === 0 || !dirty ? null : (
        <div className={on('form gap unprinted')}>
          <TextField id="why" label={acts.why} value={note} onChange={setNote} />
        </div>
      )}
      <div className={on('acts')}>
        <button type="button" className={on(may ? 'act first' : 'act')} disabled={!may} onClick={() => void keepBy(sheet.keep)}>
          {dirty ? (draft.base === 0 ? acts.keep : acts.keepAs(draft.base + 1)) : acts.kept}
        </button>
        <button type="button" className={on('act')} disabled={draft.past.length === 0} onClick={sheet.undo}>
          {acts.undo}
        </button>
        <button type="button" className={on('act')} disabled={draft.future.length === 0} onClick={sheet.redo}>
          {acts.redo}
        </button>
        <button type="button" className={on('act')} disabled={plan === null} onClick={() => print()}>
          {acts.print}
        </button>
        <button type="button" className={on('act')} onClick={() => saveFormula(formula, workshop.context)}>
          {acts.json}
        </button>
        {plan === null ? null : (
          <button type="button" className={on('act')} onClick={() => saveLines(formula, plan)}>
            {acts.csv}
          </button>
        )}
        {newer !== null && !dirty ? (
          <button type="button" className={on('act')} disabled={busy} onClick={() => void during(sheet.drop)}>
            {acts.show(newer)}
          </button>
        ) : null}
        {dirty && draft.base > 0 ? (
          <button type="button" className={on('act')} disabled={busy} onClick={() => void during(sheet.drop)}>
            {acts.drop}
          </button>
        ) : null}
      </div>
      {problem === null ? null : <ProblemWords problem={problem} />}
      {clash || (newer !== null && dirty) ? (
        <div className={on('acts')}>
          <button type="button" className={on('act')} disabled={busy} onClick={() => void keepBy(sheet.aboveNewest)}>
            {acts.newest}
          </button>
        </div>
      ) : null}
    </>
  );
}
