'use client';
import { useState } from 'react';
import type { HttpProblem, InstrumentsPage } from '#lib/protocol/http';
import { api } from '../../_ui/api';
import { HoldHint, HoldPress } from '../../_ui/press';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import type { Typed } from '../../_ui/kept/typed';
import { messages } from '../messages';
import type { Put } from './instrument';
import { carriedOf, TakeAlong } from './take-along';
import { on } from './classes';

interface Props {
  readonly page: InstrumentsPage;
  readonly put: Put;
  readonly busy: boolean;
}

/** From the practice bench to the real, empty workshop: held, not tapped. */
export function Practice({ page, put, busy }: Props) {
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const [along, setAlong] = useState<Typed>({});
  const { practice } = messages;
  const leave = async (): Promise<void> => {
    const answer = await api.leavePractice(carriedOf(along));
    if (answer.ok) put(answer.value);
    else setProblem(answer.problem);
  };
  return (
    <PaperSection id="practice" name={practice.title} note={<p>{practice.note}</p>}>
      {page.leavePractice ? (
        <>
          <p className={on('reading')}>
            {practice.what} <code>{practice.command}</code>.
          </p>
          {busy ? (
            <p>
              <b>{practice.batch}</b>
            </p>
          ) : null}
          <TakeAlong typed={along} onTyped={setAlong} />
          <div className={on('acts')}>
            <HoldPress className={on('hold')} name={practice.act} sub={practice.sub} words={practice.words} onHeld={() => void leave()} />
          </div>
          <HoldHint text={practice.hint} />
          {problem === null ? null : <Problem problem={problem} />}
        </>
      ) : (
        <p className={on('reading')}>{practice.fixed}</p>
      )}
    </PaperSection>
  );
}
