'use client';
import { useState } from 'react';
import type { NoteAbout } from '#lib/work/bars/index';
import { on } from '../../_ui/classes';
import { Choice, TextField } from '../../_ui/fields';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { lotMessages } from '../messages-lot';
import { CrossLast } from './cross-last';
import { isUnread, numberIn } from './cut-model';
import type { LotProps } from './lot-props';
import { useWant } from './use-want';

const ABOUTS = Object.entries(lotMessages.notes.abouts) as readonly (readonly [NoteAbout, string])[];
const EMPTY = { text: '', room: '', humidity: '' };

/** What was smelt, seen or felt; the room's temperature and humidity when somebody looked. */
export function Notes({ page: { row, state }, again }: LotProps) {
  const [about, setAbout] = useState<NoteAbout>('scent');
  const [typed, setTyped] = useState(EMPTY);
  const wanting = useWant(row, again);
  const { notes } = lotMessages;
  const [room, humidity] = [numberIn(typed.room), numberIn(typed.humidity)];
  const keep = async (): Promise<void> => {
    const done = await wanting.want({
      kind: 'note',
      about,
      text: typed.text.trim(),
      room: room === null ? null : Math.round(room * 1000),
      humidity: humidity === null ? null : Math.round(humidity * 10_000),
    });
    if (done) setTyped(EMPTY);
  };
  const field = (key: keyof typeof EMPTY, label: string, hint = '') => (
    <TextField
      id={`note-${key}`}
      label={label}
      value={typed[key]}
      hint={hint}
      numeric={key !== 'text'}
      error={key !== 'text' && isUnread(typed[key]) ? notes.number : ''}
      onChange={(value) => setTyped({ ...typed, [key]: value })}
    />
  );
  // What cannot be read would be left out without a word.
  const unread = isUnread(typed.room) || isUnread(typed.humidity);
  const ready = !unread && (typed.text.trim() !== '' || room !== null || humidity !== null);
  return (
    <PaperSection name={notes.title}>
      <div className={on('form')}>
        <Choice id="note-about" label={notes.about} value={about} options={ABOUTS} onChange={setAbout} />
        {field('text', notes.text)}
        {field('room', notes.room, notes.optional)}
        {field('humidity', notes.humidity, notes.optional)}
        <div className={on('acts whole')}>
          <button type="button" className={on('act')} disabled={!ready || wanting.busy} onClick={() => void keep()}>
            {notes.act}
          </button>
          <CrossLast last={state.notes.findLast(({ struck }) => struck === null)} wanting={wanting} words={notes.cross} />
        </div>
      </div>
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </PaperSection>
  );
}
