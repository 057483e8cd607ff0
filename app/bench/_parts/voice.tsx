'use client';
import { useEffect, useRef, useState } from 'react';
import type { Say } from '#lib/bench/cue';
import { see } from '../../_live/selectors';
import { liveStore, sound, speaker, useDisplay, useLive, usePreference } from '../../_live/use';
import { messages } from '../messages';
import styles from '../bench.module.css';
import { useAloud } from './late';
import { showIn, SPOKEN_IN } from './words';

/** Scales by the names a person gave them; the conductor knows their roles. */
const named = (say: Say): Say => {
  const scale = liveStore.getState().frame?.scales.find(({ role }) => role === say.params['scale']);
  return scale === undefined ? say : { ...say, params: { ...say.params, scale: scale.name } };
};

/** What is said: into the live region always, aloud where there is a voice. Each sentence once. */
export function Voice() {
  const say = useLive(see.say);
  const division = useLive(see.division);
  const display = useDisplay();
  const spoken = usePreference((kept) => kept.voice && !kept.muted);
  const [sentence, setSentence] = useState('');
  const said = useRef(-1);
  const aloud = useAloud();
  useEffect(() => {
    // Until its words are there it waits.
    if (say === null || say.id === said.current || aloud === undefined) return;
    said.current = say.id;
    const textIn = (locale: string): string => {
      const own = Number(say.params['division'] ?? NaN);
      const show = showIn({ ...display, locale }, Number.isNaN(own) ? division : own);
      const { frame, batch } = liveStore.getState();
      return aloud(named(say), frame?.cue.cards ?? [], batch, show);
    };
    setSentence(textIn(display.locale));
    // An English voice reads English marks: a comma would be a pause.
    if (spoken) speaker().say(textIn(SPOKEN_IN), SPOKEN_IN);
  }, [say, display, division, aloud, spoken]);
  return (
    <output className="unseen" aria-live="polite" data-say={sentence === '' ? undefined : say?.code}>
      {sentence}
    </output>
  );
}

/** Rings while an alarm stands that nobody silenced, and when the bench itself is lost in the middle of a batch. */
export function Alarm() {
  const alarms = useLive(see.alarms);
  const link = useLive(see.link);
  const stale = useLive(see.stale);
  const working = useLive(see.status);
  const lost = link !== 'connecting' && (link === 'down' || stale) && (working === 'weighing' || working === 'joined');
  const loud = (alarms ?? []).filter(({ silenced }) => !silenced).map(({ code }) => code);
  const name = lost ? 'bench-lost' : loud.join(' ');
  useEffect(() => {
    sound.alarm(name === '' ? null : name);
  }, [name]);
  const words = [...(lost ? [messages.offline.down.title] : []), ...(alarms ?? []).map(({ code }) => messages.alarms[code])];
  if (words.length === 0) return null;
  return (
    <p key={words.join()} className={styles['alarm']} role="alert" data-alarm={name === '' ? 'silenced' : 'ringing'}>
      {words.join(' · ')}
    </p>
  );
}
