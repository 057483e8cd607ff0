'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import type { FollowBars } from '#lib/protocol/lots';
import type { Complaint } from '#lib/work/lots/complaint';
import { on } from '../../_ui/classes';
import { Radios, TextField } from '../../_ui/fields';
import { freshId } from '../../_ui/fresh-id';
import { Head } from '../../_ui/head';
import { documentOf } from '../../_ui/kept/kind';
import { dayTyped } from '../../_ui/kept/typed';
import { PaperPage } from '../../_ui/paper';
import { Problem, ProblemSection } from '../../_ui/problem';
import { PaperSection, PaperTitle } from '../../_ui/section';
import { shelfApi } from '../../_ui/shelf-api';
import { useAsked } from '../../_ui/use-asked';
import { followMessages } from '../messages-follow';
import { BackSections } from './back-sections';
import { followApi } from './follow-api';
import { StoresNav } from './stores-nav';

const { complaints: words } = followMessages;

/** What was said, and the trace of what it was said about. */
export function ComplaintsPage() {
  const { asked, again } = useAsked(() => shelfApi.list('complaint'));
  const [trace, setTrace] = useState<FollowBars | null>(null);
  const [said, setSaid] = useState('');
  const kept = async (mark: string, held: readonly string[]): Promise<void> => {
    setSaid(words.kept(held));
    again();
    const answer = await followApi.bars(mark);
    setTrace(answer.ok ? answer.value : null);
  };
  const all = asked.state === 'there' ? asked.value.items.map((item) => documentOf<Complaint>(item)).toReversed() : [];
  return (
    <PaperPage foot={words.title}>
      <PaperTitle title={words.title} lead={words.lead} side={<StoresNav />} />
      <PaperSection name={words.add} note={<p>{words.note}</p>}>
        <Form key={all.length} onKept={(mark, held) => void kept(mark, held)} />
        <p className={on('gap')}>
          <output>{said}</output>
        </p>
        {trace === null ? null : <Retained trace={trace} />}
      </PaperSection>
      {trace === null ? null : <BackSections found={trace} />}
      {trace === null ? null : (
        <PaperSection name={words.print}>
          <div className={on('acts')}>
            <button type="button" className={on('act first')} onClick={() => window.print()}>
              {words.print}
            </button>
          </div>
        </PaperSection>
      )}
      {asked.state === 'failed' ? <ProblemSection problem={asked.problem} onAgain={again} /> : null}
      <PaperSection name={words.list}>
        {asked.state === 'there' && all.length === 0 ? <p className={on('reading')}>{words.none}</p> : null}
        {all.length === 0 ? null : <List all={all} />}
      </PaperSection>
    </PaperPage>
  );
}

type Reaction = Complaint['reaction'];
/** How the server answers a mark that no bars bear. */
const NO_SUCH_BARS = 422;
const REACTIONS = Object.entries(words.reactions) as [Reaction, string][];

function Form({ onKept }: { readonly onKept: (mark: string, held: readonly string[]) => void }) {
  // Named once, so that a try repeated is one.
  const [intent] = useState(() => freshId('c'));
  const [typed, setTyped] = useState({ mark: '', day: '', what: '', action: '' });
  const [reaction, setReaction] = useState<Reaction>('none');
  const [tried, setTried] = useState(false);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  // The mark that was refused because no bars bear it: asked about as long as it stands there.
  const [unknown, setUnknown] = useState<string | null>(null);
  const happened = dayTyped(typed.day, words.badDay);
  const errors = {
    mark: typed.mark.trim() === '' ? words.missing : '',
    day: happened.why,
    what: typed.what.trim() === '' ? words.missing : '',
    action: '',
  };
  const keep = async (anyway: boolean): Promise<void> => {
    setTried(true);
    if (Object.values(errors).some((error) => error !== '')) return;
    const { mark, what, action } = typed;
    const answer = await followApi.complain({
      intent,
      mark: mark.trim(),
      day: happened.text,
      what: what.trim(),
      action: action.trim(),
      reaction,
      anyway,
    });
    setUnknown(!answer.ok && answer.status === NO_SUCH_BARS ? mark : null);
    setProblem(answer.ok ? null : answer.problem);
    if (answer.ok) onKept(mark.trim(), answer.value.held);
  };
  const field = (key: keyof typeof typed, label: string, hint = '') => (
    <TextField
      id={`complaint-${key}`}
      label={label}
      hint={hint}
      value={typed[key]}
      error={tried ? errors[key] : ''}
      onChange={(value) => setTyped({ ...typed, [key]: value })}
    />
  );
  return (
    <form
      className={on('form')}
      onSubmit={(event) => {
        event.preventDefault();
        void keep(false);
      }}
    >
      {field('mark', words.mark, followMessages.ask.markHint)}
      {field('day', words.day)}
      <div className={on('whole')}>{field('what', words.what)}</div>
      <div className={on('whole')}>{field('action', words.action)}</div>
      <div className={on('whole')}>
        <Radios name="reaction" legend={words.reaction} value={reaction} options={REACTIONS} onChange={setReaction} />
      </div>
      {reaction === 'serious' ? <p className={on('warn whole')}>{words.report}</p> : null}
      <div className={on('acts whole')}>
        <button type="submit" className={on('act first')}>
          {words.keep}
        </button>
      </div>
      {problem === null ? null : (
        <div className={on('whole')}>
          <Problem problem={problem} />
          {unknown === null || unknown !== typed.mark ? null : (
            <div className={on('acts')}>
              <button type="button" className={on('act')} onClick={() => void keep(true)}>
                {words.anyway}
              </button>
            </div>
          )}
        </div>
      )}
    </form>
  );
}

/** Where the bars are that were kept back for looking at. */
function Retained({ trace: { batches } }: { readonly trace: FollowBars }) {
  const bars = batches.flatMap(({ followed }) => followed.bars);
  const kept = bars.map(
    ({ mark, retained, place }) => `${mark}, ${retained === 0 ? followMessages.noRetained : followMessages.retained(retained, place)}`,
  );
  return kept.length === 0 ? null : (
    <p className={on('reading')}>
      {words.retained} {kept.join('; ')}.
    </p>
  );
}

function List({ all }: { readonly all: readonly Complaint[] }) {
  const { heads } = words;
  return (
    <table className={on('table')}>
      <caption className="unseen">{words.caption}</caption>
      <thead>
        <tr>
          <Head name={heads.day} />
          <Head name={heads.mark} />
          <Head name={heads.what} />
          <Head name={heads.action} wide />
          <Head name={heads.reaction} wide />
          <Head name={heads.held} wide />
        </tr>
      </thead>
      <tbody>
        {all.map((one) => (
          <tr key={one.id}>
            <td className={on('nw')}>{one.day}</td>
            <th scope="row">
              <Link
                href={`/stores/follow?mark=${encodeURIComponent(one.mark)}` as Route}
                prefetch={false}
                aria-label={`${words.trace}: ${one.mark}`}
              >
                {one.isUnknown === true ? words.notThere(one.mark) : one.mark}
              </Link>
            </th>
            <td>{one.what}</td>
            <td className={on('wide')}>{one.action}</td>
            <td className={on('wide')}>{words.reactions[one.reaction]}</td>
            <td className={on('wide')}>{one.held.join(', ')}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
