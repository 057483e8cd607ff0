'use client';
import { Fragment, useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import type { PersonRow } from '#lib/protocol/people';
import { TextField } from '../../_ui/fields';
import { Head } from '../../_ui/head';
import { keptMessages } from '../../_ui/kept/messages';
import { OpenCell, Slip } from '../../_ui/kept/open-row';
import { peopleApi } from '../../_ui/people-api';
import { Asking, Problem, ProblemSection } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { useAsked } from '../../_ui/use-asked';
import { usePreference } from '../../_live/use';
import { peopleMessages as words } from '../messages-people';
import { OnePerson } from './person';
import type { Act } from './person';
import { on } from './classes';

type Named = PersonRow & { readonly name: string };

/** Who works here, and who bought: by name, while the record keeps ids. */
export function People() {
  const pass = usePreference((kept) => kept.pass);
  const { asked, again, put } = useAsked(peopleApi.list, { revision: pass ?? '' });
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const act: Act = async (coming) => {
    const answer = await coming;
    setProblem(answer.ok ? null : answer.problem);
    if (answer.ok) put(answer.value);
    return answer.ok;
  };
  if (asked.state === 'failed') return <ProblemSection problem={asked.problem} onAgain={again} />;
  if (asked.state === 'asking') return <Asking />;
  const { people, me } = asked.value;
  const named = people.flatMap((one) => (one.name === null ? [] : [{ ...one, name: one.name }]));
  const erased = people.length - named.length;
  const makers = named.filter(({ role }) => role === 'maker');
  const buyers = named.filter(({ role }) => role === 'buyer');
  return (
    <div id="people">
      <PaperSection name={words.title} note={<p>{words.note}</p>}>
        <p className={on('reading')}>{makers.length === 0 ? words.none : words.lead}</p>
        {makers.length === 0 ? null : <Rows caption={words.caption} people={makers} me={me} act={act} onProblem={setProblem} />}
        {me === null ? null : (
          <p className={on('gap')}>
            <button type="button" className={on('link')} onClick={peopleApi.leave}>
              {words.nobody}
            </button>
          </p>
        )}
        <Add of="maker" label={words.add} act={act} />
        {erased === 0 ? null : <p className={on('dim gap')}>{words.erased(erased)}</p>}
        {problem === null ? null : <Problem problem={problem} />}
      </PaperSection>
      <PaperSection id="buyers" name={words.buyers} note={<p>{words.buyersNote}</p>}>
        {buyers.length === 0 ? null : <Rows caption={words.captionBuyers} people={buyers} me={null} act={act} onProblem={setProblem} />}
        <Add of="buyer" label={words.addBuyer} act={act} />
      </PaperSection>
    </div>
  );
}

interface RowsProps {
  readonly caption: string;
  readonly people: readonly Named[];
  readonly me: string | null;
  readonly act: Act;
  readonly onProblem: (problem: HttpProblem | null) => void;
}

function Rows({ caption, people, me, act, onProblem }: RowsProps) {
  const [open, setOpen] = useState<string | null>(null);
  const makers = people.some(({ role }) => role === 'maker');
  const here = async (person: Named): Promise<void> => {
    // Whoever has a PIN types it below.
    if (person.pin) return setOpen(person.id);
    const answer = await peopleApi.switchTo(person.id, null);
    return onProblem(answer.ok ? null : answer.problem);
  };
  return (
    <table className={on('table gap')}>
      <caption className="unseen">{caption}</caption>
      <thead>
        <tr>
          <Head name={words.heads.name} />
          {makers ? <Head name={words.heads.pin} /> : null}
          {makers ? <Head name={words.heads.acts} /> : null}
          <Head name={keptMessages.more} unseen />
        </tr>
      </thead>
      <tbody>
        {people.map((person) => (
          <Fragment key={person.id}>
            <tr data-person={person.name}>
              <th scope="row">{person.name}</th>
              {makers ? <td>{person.pin ? words.hasPin : ''}</td> : null}
              {makers ? (
                <td>
                  {me === person.id ? (
                    <b>{words.here}</b>
                  ) : (
                    <button
                      type="button"
                      className={on('link')}
                      aria-label={`${words.switchTo}. ${words.switchSpoken(person.name)}`}
                      onClick={() => void here(person)}
                    >
                      {words.switchTo}
                    </button>
                  )}
                </td>
              ) : null}
              <OpenCell
                name={person.name}
                isOpen={open === person.id}
                slip={`person-${person.id}`}
                onPress={() => setOpen(open === person.id ? null : person.id)}
              />
            </tr>
            {open === person.id ? (
              <Slip id={`person-${person.id}`} columns={makers ? 4 : 2}>
                <OnePerson person={person} mine={me === person.id} act={act} onProblem={onProblem} onDone={() => setOpen(null)} />
              </Slip>
            ) : null}
          </Fragment>
        ))}
      </tbody>
    </table>
  );
}

function Add({ of, label, act }: { readonly of: PersonRow['role']; readonly label: string; readonly act: Act }) {
  const [name, setName] = useState('');
  const add = async (): Promise<void> => {
    if (await act(peopleApi.add(name, of))) setName('');
  };
  return (
    <form className={on('form gap')} action={() => void add()}>
      <TextField id={`add-${of}`} label={words.name} value={name} onChange={setName} />
      <div className={on('acts')}>
        <button type="submit" className={on('act')} disabled={name.trim() === ''}>
          {label}
        </button>
      </div>
    </form>
  );
}
