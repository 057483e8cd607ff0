'use client';
import { useEffect } from 'react';
import { speaker, usePreference } from '../../_live/use';
import { useControls } from './controls';
import { SPOKEN_IN } from './words';

/**
 * Cards this page makes itself are read aloud like those of the bench: first what they ask, then each as it is stepped to. It stands apart
 * from them: a screen reader hears what is put into a region that it knows, not one that comes and goes with its words.
 */
export function LocalVoice() {
  const sentence = useControls(({ asking, local, selected }) =>
    selected >= 0 && local !== null ? local.said(selected) : asking === null ? '' : `${asking.what} ${asking.how}`,
  );
  const aloud = usePreference((kept) => kept.voice && !kept.muted);
  useEffect(() => {
    if (sentence !== '' && aloud) speaker().say(sentence, SPOKEN_IN);
  }, [sentence, aloud]);
  return (
    <output className="unseen" aria-live="polite" data-local="">
      {sentence}
    </output>
  );
}
