'use client';
import { useState } from 'react';
import type { BatchPage, HttpProblem } from '#lib/protocol/http';
import { Choice, TextField } from '../../../_ui/fields';
import { Asking, Problem } from '../../../_ui/problem';
import { proofApi } from '../../../_ui/proof/api';
import { ShownHead } from '../../../_ui/proof/head';
import { PaperSection } from '../../../_ui/section';
import { useAsked } from '../../../_ui/use-asked';
import { proofMessages as words, WITHDRAWN_TEXT } from '../messages-proof';
import { on } from './classes';

/** What proves the batch, what it does not prove, and the file to hand on. */
export function Proof({ review: { summary, record, story } }: { readonly review: BatchPage }) {
  const { id } = summary;
  const { asked, again } = useAsked(() => proofApi.batch(id), { key: id, revision: record.seq });
  const notes = story.flatMap(({ code, version, params }) =>
    code === 'noted' && params['text'] !== WITHDRAWN_TEXT ? [[String(version), String(params['text'])] as const] : [],
  );
  const proof = asked.state === 'there' ? asked.value : null;
  const [withdrawing, setWithdrawing] = useState(false);
  return (
    <PaperSection
      name={words.title}
      note={
        <>
          <p>{words.note}</p>
          <p>{words.honest}</p>
          <p>{words.bundle}</p>
        </>
      }
    >
      {asked.state === 'asking' ? <Asking /> : null}
      {asked.state === 'failed' ? <Problem problem={asked.problem} onAgain={again} /> : null}
      {proof === null || proof.head !== null ? null : <p className={on('reading')}>{words.none}</p>}
      {proof?.head == null ? null : <ShownHead head={proof.head} code={proofApi.batchCode(id)} />}
      {proof === null || proof.withdrawn === 0 ? null : <p className={on('reading')}>{words.withdrawn(proof.withdrawn)}</p>}
      <div className={on('acts')}>
        <a className={on('act')} href={proofApi.bundle(id)} download="">
          {words.acts.bundle}
        </a>
        {proof?.head == null ? null : (
          <a className={on('act')} href={proofApi.batchNote(id)} download="">
            {words.acts.head}
          </a>
        )}
        {summary.endedWall === null || notes.length === 0 ? null : (
          <button type="button" className={on('act')} aria-expanded={withdrawing} onClick={() => setWithdrawing(!withdrawing)}>
            {words.withdraw.title}
          </button>
        )}
      </div>
      {withdrawing ? <Withdraw id={id} notes={notes} /> : null}
    </PaperSection>
  );
}

function Withdraw({ id, notes }: { readonly id: string; readonly notes: readonly (readonly [string, string])[] }) {
  const [version, setVersion] = useState('');
  const [why, setWhy] = useState('');
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const withdraw = async (): Promise<void> => {
    const answer = await proofApi.withdraw(id, Number(version), why);
    // The whole page told the note.
    if (answer.ok) location.reload();
    else setProblem(answer.problem);
  };
  return (
    <>
      <p className={on('reading gap')}>{words.withdraw.what}</p>
      <form className={on('form gap')} action={() => void withdraw()}>
        <Choice
          id="withdraw-note"
          label={words.withdraw.which}
          value={version}
          options={[['', words.withdraw.choose], ...notes]}
          onChange={setVersion}
        />
        <TextField id="withdraw-why" label={words.withdraw.why} value={why} onChange={setWhy} />
        <div className={on('acts')}>
          <button type="submit" className={on('act')} disabled={version === '' || why.trim() === ''}>
            {words.withdraw.act}
          </button>
        </div>
      </form>
      {problem === null ? null : <Problem problem={problem} />}
    </>
  );
}
