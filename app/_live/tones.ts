import { IDLE_CUE } from '#lib/bench/conductor/blank';
import { signalOf, toneOf } from '#lib/bench/tone';
import { liveStore, sound } from './start';

/** Plays what the frames say, straight from the store: a tone must not wait until the page has drawn. Returns the way to stop. */
export const followTones = (): (() => void) => {
  const stop = liveStore.subscribe(({ frame }, { frame: before }) => {
    if (frame === before) return;
    const cue = frame?.cue ?? IDLE_CUE;
    sound.tone(toneOf(cue));
    const signal = signalOf(before?.cue ?? IDLE_CUE, cue);
    if (signal !== null) sound.signal(signal);
  });
  return () => {
    stop();
    sound.tone({ kind: 'none' });
  };
};
