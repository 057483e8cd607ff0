'use client';
import type { HttpProblem } from '#lib/protocol/http';
import { see } from '../_live/selectors';
import { useLive } from '../_live/use';
import { messages } from './messages';

/** What happened, what was kept, what to do; said at once by a screen reader. */
export function Problem({ problem, onAgain }: { readonly problem: HttpProblem; readonly onAgain?: (() => void) | undefined }) {
  return (
    <div role="alert" className="reading">
      <p className="warn">{problem.error}</p>
      <p>{problem.kept}</p>
      <p>{problem.todo}</p>
      {onAgain === undefined ? null : (
        <div className="acts">
          <button type="button" className="act" onClick={onAgain}>
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
    <Framed title={messages.problem.title}>
      <Problem problem={problem} onAgain={onAgain} />
    </Framed>
  );
}

/** While nothing has come yet. */
export function Asking() {
  return (
    <p>
      <output className="dim">{messages.asking}</output>
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
      <Framed title={messages.outdated.title}>
        <p>{messages.outdated.what}</p>
        <div className="acts">
          <button type="button" className="act first" onClick={() => location.reload()}>
            {messages.outdated.act}
          </button>
        </div>
      </Framed>
    );
  if (link !== 'down') return null;
  return (
    <Framed title={gone.title}>
      <Problem problem={{ error: gone.what, kept: gone.kept, todo: gone.todo }} />
    </Framed>
  );
}

function Framed({ title, children }: { readonly title: string; readonly children: React.ReactNode }) {
  return (
    <section className="row section" aria-label={title}>
      <div className="side">
        <h2>{title}</h2>
      </div>
      <div>{children}</div>
    </section>
  );
}
