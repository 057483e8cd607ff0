import { createStore } from 'zustand/vanilla';

/** `unheard`: not known yet; `no-voice`: this browser has none, so the words are on the screen and in the live region only. */
export type Voice = 'unheard' | 'ready' | 'no-voice';

/** Says a sentence aloud. Never the only channel: every sentence also stands on the screen. */
export interface Speaker {
  voice(): Voice;
  /** A newer sentence replaces one still being said. */
  say(sentence: string, locale: string): void;
  hush(): void;
  /** Calls when `voice` changes; returns the way to stop. */
  watch(changed: () => void): () => void;
}

const VOICES_WITHIN_MS = 3_000;

/** The browser's own synthesis (Web Speech). Voices arrive late, or, on many Linux machines, never. */
export const createWebSpeaker = (): Speaker => {
  const synthesis = typeof speechSynthesis === 'undefined' ? null : speechSynthesis;
  const hasVoice = (): boolean => (synthesis?.getVoices().length ?? 0) > 0;
  const state = createStore<{ voice: Voice }>(() => ({
    voice: hasVoice() ? 'ready' : synthesis === null ? 'no-voice' : 'unheard',
  }));
  const judge = (otherwise: Voice): void => state.setState({ voice: hasVoice() ? 'ready' : otherwise });
  synthesis?.addEventListener('voiceschanged', () => judge('no-voice'));
  if (state.getState().voice === 'unheard') setTimeout(() => judge('no-voice'), VOICES_WITHIN_MS);

  return {
    voice: () => state.getState().voice,
    say(sentence, locale) {
      if (synthesis === null || !hasVoice()) return;
      synthesis.cancel();
      const utterance = new SpeechSynthesisUtterance(sentence);
      utterance.lang = locale;
      synthesis.speak(utterance);
    },
    hush: () => synthesis?.cancel(),
    watch: (changed) => state.subscribe(changed),
  };
};
