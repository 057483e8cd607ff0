'use client';
import type { HttpProblem } from '#lib/protocol/http';
import { see } from '../_live/selectors';
import { useLive } from '../_live/use';
import { messages } from './messages';
import { PaperSection } from './section';
import { on } from './classes';

/** What happened, what was kept, what to do; said at once by a screen reader. */
export function Problem({ problem, onAgain }: { readonly problem: HttpProblem; readonly onAgain?: (() => void) | undefined }) {
  return (
    <div role="alert" className={on('reading')}>
      <p className={on('warn')}>{problem.error}</p>
      <p>{problem.kept}</p>
      <p>{problem.todo}</p>
      {onAgain === undefined ? null : (
        <div className={on('acts')}>
          <button type="button" className={on('act')} onClick={onAgain}>
            {messages.problem.again}
          </button>
        </div>
      )}
    </div>
  );
}

/** A problem that is all a section has. */
export function ProblemSection({ problem, onAgain }: { readonly problem: HttpProblem; readonly onAgain?: (() => void) | undefined }) {
  return (
    <PaperSection name={messages.problem.title}>
      <Problem problem={problem} onAgain={onAgain} />
    </PaperSection>
  );
}

/** While nothing has come yet. */
export function Asking() {
  return (
    <p>
      <output className={on('dim')}>{messages.asking}</output>
    </p>
  );
}

/** Above everything else while the bench machine does not answer, or is of another version than this page. */
export function Gone() {
  const link = useLive(see.link);
  const outdated = useLive(see.outdated);
  const { gone } = messages;
  if (outdated)
    return (
      <PaperSection name={messages.outdated.title}>
        <p>{messages.outdated.what}</p>
        <div className={on('acts')}>
          <button type="button" className={on('act first')} onClick={() => location.reload()}>
            {messages.outdated.act}
          </button>
        </div>
      </PaperSection>
    );
  if (link !== 'down') return null;
  return (
    <PaperSection name={gone.title}>
      <Problem problem={{ error: gone.what, kept: gone.kept, todo: gone.todo }} />
    </PaperSection>
  );
}
