'use client';
import { useEffect } from 'react';
import { massText } from '#lib/units/format';
import type { Display } from '#lib/units/display';
import type { LiveState } from '../../_live/store';
import { speaker, useDisplay, useLive, usePreference } from '../../_live/use';
import { barsMessages } from '../messages-bars';
import { SPOKEN_IN } from './words';
import { barName, barsCue, barsScale } from './bars-shown';

/** The sentence of this moment; empty where nothing is to be said. */
const sentenceOf = (state: LiveState, display: Display): string => {
  const cue = barsCue(state);
  const { say } = barsMessages;
  if (cue === null) return '';
  if (cue.phase === 'put-on') return say.putOn(barName(cue));
  if (cue.phase === 'ask') return say.ask(barName(cue));
  if (cue.phase === 'done') return say.done;
  if (cue.phase !== 'taken' || cue.last === null) return '';
  return say.taken(
    barName({ ...cue, bar: cue.last.bar, done: cue.done - 1 }),
    massText(cue.last.net, display, barsScale(state)?.division ?? null),
  );
};

/** Which bar is next and what was taken, into the live region always, aloud where there is a voice. */
export function BarsVoice() {
  const display = useDisplay();
  const aloud = usePreference((kept) => kept.voice && !kept.muted);
  const sentence = useLive((state) => sentenceOf(state, display));
  useEffect(() => {
    if (sentence !== '' && aloud) speaker().say(sentence, SPOKEN_IN);
  }, [sentence, aloud]);
  return (
    <output className="unseen" aria-live="polite">
      {sentence}
    </output>
  );
}
