'use client';
import { useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import type { PeoplePage, PersonRow } from '#lib/protocol/people';
import { TextField } from '../../_ui/fields';
import { keptMessages } from '../../_ui/kept/messages';
import { peopleApi } from '../../_ui/people-api';
import { HoldPress } from '../../_ui/press';
import { messages } from '../messages';
import { peopleMessages as words } from '../messages-people';
import { on } from './classes';
import type { Answer } from '../../_ui/api';

/** Does something that answers with everyone as they are then; says whether it was done. */
export type Act = (asked: Promise<Answer<PeoplePage>>) => Promise<boolean>;

const PIN = /^\d{4,8}$/;

interface Props {
  readonly person: PersonRow & { readonly name: string };
  /** They act on this screen. */
  readonly mine: boolean;
  readonly act: Act;
  readonly onProblem: (problem: HttpProblem | null) => void;
  readonly onDone: () => void;
}

/** One person: another name, a PIN, switching to them by it, erasing. */
export function OnePerson({ person, mine, act, onProblem, onDone }: Props) {
  const [name, setName] = useState(person.name);
  const [now, setNow] = useState('');
  const done = async (asked: ReturnType<Act>): Promise<void> => {
    if (await asked) onDone();
  };
  const switchTo = async (): Promise<void> => {
    const answer = await peopleApi.switchTo(person.id, now);
    onProblem(answer.ok ? null : answer.problem);
    if (answer.ok) onDone();
  };
  const id = (field: string): string => `${field}-${person.id}`;
  return (
    <>
      {person.pin && !mine ? (
        <div className={on('form')}>
          <TextField id={id('now')} label={words.pinAsk(person.name)} value={now} numeric onChange={setNow} />
          <div className={on('acts')}>
            <button type="button" className={on('act first')} disabled={now === ''} onClick={() => void switchTo()}>
              {words.switchTo}
            </button>
          </div>
        </div>
      ) : null}
      <div className={on('form')}>
        <TextField id={id('name')} label={words.name} value={name} onChange={setName} />
        <div className={on('acts')}>
          <button
            type="button"
            className={on('act')}
            disabled={name.trim() === '' || name.trim() === person.name}
            onClick={() => void done(act(peopleApi.rename(person.id, name)))}
          >
            {keptMessages.keepChange}
          </button>
        </div>
      </div>
      {person.role === 'maker' ? <Pin person={person} act={act} onDone={onDone} /> : null}
      <div className={on('acts')}>
        <HoldPress
          className={on('hold')}
          name={words.erase}
          sub={words.eraseSub}
          words={messages.practice.words}
          onHeld={() => void done(act(peopleApi.erase(person.id)))}
        />
      </div>
    </>
  );
}

function Pin({ person, act, onDone }: Pick<Props, 'person' | 'act' | 'onDone'>) {
  const [pin, setPin] = useState('');
  const [now, setNow] = useState('');
  const [tried, setTried] = useState(false);
  const set = async (wanted: string | null): Promise<void> => {
    setTried(true);
    if (wanted !== null && !PIN.test(wanted)) return;
    if (await act(peopleApi.pin(person.id, wanted, now === '' ? null : now))) onDone();
  };
  const error = tried && pin !== '' && !PIN.test(pin) ? words.pinBad : '';
  return (
    <div className={on('form')}>
      {person.pin ? <TextField id={`pin-now-${person.id}`} label={words.pinNow} value={now} numeric onChange={setNow} /> : null}
      <TextField id={`pin-${person.id}`} label={words.pinNew} value={pin} error={error} numeric onChange={setPin} />
      <div className={on('acts')}>
        <button type="button" className={on('act')} disabled={pin === ''} onClick={() => void set(pin)}>
          {words.pinSet}
        </button>
        {person.pin ? (
          <button type="button" className={on('act')} onClick={() => void set(null)}>
            {words.pinOff}
          </button>
        ) : null}
      </div>
      {person.pin ? <p className={on('whole dim')}>{words.pinHint}</p> : null}
    </div>
  );
}
