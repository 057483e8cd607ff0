'use client';
import { useEffect } from 'react';
import { speaker, usePreference } from '../../_live/use';
import { useControls } from './controls';
import { SPOKEN_IN } from './words';

interface LocalVoiceProps {
  /** The card that was stepped to; absent: none yet. */
  readonly card: { readonly name: string; readonly sub: string } | undefined;
}

/** Cards this page makes itself are read aloud like those of the bench: first what they ask, then each as it is stepped to. */
export function LocalVoice({ card }: LocalVoiceProps) {
  const asked = useControls(({ asking }) => (asking === null ? '' : `${asking.what} ${asking.how}`));
  const aloud = usePreference((kept) => kept.voice && !kept.muted);
  const sentence = card === undefined ? asked : card.sub === '' ? `${card.name}.` : `${card.name}: ${card.sub}.`;
  useEffect(() => {
    if (sentence !== '' && aloud) speaker().say(sentence, SPOKEN_IN);
  }, [sentence, aloud]);
  return (
    <output className="unseen" aria-live="polite" data-local="">
      {sentence}
    </output>
  );
}
