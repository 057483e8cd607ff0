import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createWebSpeaker } from '../../../app/_live/speech';

/** A browser's synthesis in our hands: voices come when told to, what is said is kept. */
const synthesis = () => {
  const target = new EventTarget();
  const said: string[] = [];
  let voices: readonly unknown[] = [];
  return Object.assign(target, {
    said,
    getVoices: () => voices,
    cancel: () => void said.splice(0),
    speak: ({ text }: { text: string }) => void said.push(text),
    give: (given: readonly unknown[]) => {
      voices = given;
      target.dispatchEvent(new Event('voiceschanged'));
    },
  });
};

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal(
    'SpeechSynthesisUtterance',
    class {
      readonly text: string;
      lang = '';
      constructor(text: string) {
        this.text = text;
      }
    },
  );
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('the speaker', () => {
  it('says it has no voice where the browser has no synthesis, and says nothing', () => {
    vi.stubGlobal('speechSynthesis', undefined);
    const speaker = createWebSpeaker();
    expect(speaker.voice()).toBe('no-voice');
    expect(() => speaker.say('Ease off.', 'en-GB')).not.toThrow();
  });

  it('says it has no voice when none has come in time', () => {
    const browser = synthesis();
    vi.stubGlobal('speechSynthesis', browser);
    const speaker = createWebSpeaker();
    expect(speaker.voice()).toBe('unheard');
    vi.advanceTimersByTime(3_000);
    expect(speaker.voice()).toBe('no-voice');
    speaker.say('Ease off.', 'en-GB');
    expect(browser.said).toEqual([]);
  });

  it('takes a voice that comes late, tells who watches, and lets a newer sentence replace an older one', () => {
    const browser = synthesis();
    vi.stubGlobal('speechSynthesis', browser);
    const speaker = createWebSpeaker();
    const changed = vi.fn();
    speaker.watch(changed);
    browser.give([{}]);
    expect(speaker.voice()).toBe('ready');
    expect(changed).toHaveBeenCalled();
    speaker.say('Next: olive oil.', 'en-GB');
    speaker.say('Ease off.', 'en-GB');
    expect(browser.said).toEqual(['Ease off.']);
    speaker.hush();
    expect(browser.said).toEqual([]);
  });
});
