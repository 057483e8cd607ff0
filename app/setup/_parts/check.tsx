'use client';
import { useState } from 'react';
import type { SyntheticEvent } from 'react';
import type { InstrumentConfig } from '#lib/measure/instrument';
import type { IntentAnswer, IntentWant } from '#lib/protocol/intent';
import { massOfDecimal, readNumber } from '#lib/units/parse';
import { see } from '../../_live/selectors';
import { live, useDisplay, useLive } from '../../_live/use';
import { messages as shared } from '../../_ui/messages';
import { messages } from '../messages';
import { TextField } from '../../_ui/fields';
import { on } from './classes';

const TRIES = 12;
const BETWEEN_MS = 500;

/** A weight that moves is waited for a little; one that a bench nobody led has not looked at yet, too. */
const onceSettled = async (want: IntentWant): Promise<IntentAnswer> => {
  let answer = await live().intend(want);
  for (let tries = 1; tries < TRIES && !answer.ok && answer.refusal.code === 'not-settled'; tries += 1) {
    await new Promise((resolve) => setTimeout(resolve, BETWEEN_MS));
    answer = await live().intend(want);
  }
  return answer;
};

/** One known mass on the empty pan: an entry of the batch on the bench. */
export function Check({ config }: { readonly config: InstrumentConfig }) {
  const display = useDisplay();
  const batch = useLive(see.batch);
  const lease = useLive(see.lease);
  const [text, setText] = useState('');
  const [error, setError] = useState('');
  const [said, setSaid] = useState('');
  const { check } = messages;
  const unit = display.mass === 'g' ? 'g' : 'oz';
  const possible = batch !== null && (batch.status === 'weighing' || batch.status === 'joined');
  const led = lease?.holder != null && !lease.mine;
  const enter = async (): Promise<void> => {
    const read = readNumber(text);
    const nominal = read.kind === 'number' ? massOfDecimal(read.decimal, unit) : null;
    setSaid('');
    if (nominal === null) return setError(read.kind === 'ambiguous' ? messages.bind.errors.ambiguous(...read.readings) : check.mass);
    setError('');
    setSaid(check.waits);
    const mine = lease?.mine === true;
    if (!mine) await live().lease('take', messages.title);
    const answer = await onceSettled({ kind: 'check-scale', instrument: config.id, nominal });
    live().dismiss();
    if (!mine) await live().lease('release', '');
    return setSaid(answer.ok ? check.done : (check.refused[answer.refusal.code] ?? check.refusedOther));
  };
  const submit = (event: SyntheticEvent): void => {
    event.preventDefault();
    void enter();
  };
  return (
    <>
      <h3 className={on('minor gap')}>{check.title}</h3>
      <p className={on('reading')}>{check.teach}</p>
      {possible && !led ? (
        <form className={on('form')} onSubmit={submit} noValidate>
          <TextField id={`check-${config.id}`} label={check.label(unit)} value={text} error={error} numeric onChange={setText} />
          <div className={on('acts')}>
            <button type="submit" className={on('act')}>
              {check.act}
            </button>
          </div>
        </form>
      ) : (
        <p className={on('dim')}>{possible ? check.others(lease?.label ?? shared.bench.unknown) : check.noBatch}</p>
      )}
      <output>{said}</output>
    </>
  );
}
