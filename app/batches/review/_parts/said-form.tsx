'use client';
import { useState } from 'react';
import type { ReactNode } from 'react';
import type { AfterwardsWant } from '#lib/protocol/afterwards';
import type { HttpProblem } from '#lib/protocol/http';
import { afterwardsApi } from '../../../_ui/afterwards-api';
import { freshId } from '../../../_ui/fresh-id';
import { Problem } from '../../../_ui/problem';
import { afterwardsMessages as words } from '../messages-afterwards';
import { on } from './classes';

export interface SaidProps {
  readonly batch: string;
  readonly onDone: () => void;
  readonly onLeave: () => void;
}

interface Props extends SaidProps {
  readonly children: ReactNode;
  /** What is meant, `null` while something is missing; it may have to be kept first. */
  readonly want: () => Promise<AfterwardsWant | HttpProblem | null>;
}

const isProblem = (said: AfterwardsWant | HttpProblem): said is HttpProblem => 'error' in said;

/** One thing to say of a batch: kept once however often it is tried; what was typed stays until it is kept. */
export function SaidForm({ batch, onDone, onLeave, children, want }: Props) {
  const [intent] = useState(() => freshId('said'));
  const [waits, setWaits] = useState(false);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const keep = async (): Promise<void> => {
    setWaits(true);
    setProblem(null);
    const meant = await want();
    const answer = meant === null || isProblem(meant) ? null : await afterwardsApi.say(batch, intent, meant);
    setWaits(false);
    if (meant !== null && isProblem(meant)) return setProblem(meant);
    if (answer === null) return undefined;
    return answer.ok ? onDone() : setProblem(answer.problem);
  };
  return (
    <form
      className={on('form gap')}
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      {children}
      <div className={on('acts whole')}>
        <button type="submit" className={on('act first')} disabled={waits}>
          {words.keep}
        </button>
        <button type="button" className={on('act')} onClick={onLeave}>
          {words.leave}
        </button>
      </div>
      {problem === null ? null : (
        <div className={on('whole')}>
          <Problem problem={problem} />
        </div>
      )}
    </form>
  );
}
