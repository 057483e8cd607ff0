import { probeLine } from '../encode/probe-line';
import type { ProbeSample, ProbeWord } from '../encode/probe-line';
import type { Random } from '../world/random';
import { STEP_MS } from '../world/step';
import type { WarmPlace, Warmth } from '../world/warmth';
import { createMouth } from './voice';
import type { Send, Voice } from './voice';

export interface ProbeVoice extends Voice {
  /** A fault of the probe, or a temperature it wrongly reads; `null`: sound again. */
  ail(sample: { readonly celsius: number } | { readonly word: ProbeWord } | null): void;
}

export interface ProbeVoiceOptions {
  readonly warmth: Warmth;
  readonly place: WarmPlace;
  /** Lines a second. */
  readonly rate: number;
  readonly random: Random;
  readonly send: Send;
}

export const createProbeVoice = ({ warmth, place, rate, random, send }: ProbeVoiceOptions): ProbeVoice => {
  const mouth = createMouth(send, (length) => Math.floor(random.next() * length));
  const every = 1000 / rate;
  let ailing: ProbeSample | null = null;
  let untilNext = every * random.next();
  return {
    step() {
      untilNext -= STEP_MS;
      if (untilNext > 0) return;
      untilNext += every;
      mouth.say(probeLine(place, ailing ?? { celsius: warmth.probes[place].convert() }));
    },
    hear: () => {},
    joined: () => mouth.joined(),
    silence: (on) => mouth.silence(on),
    ail: (sample) => void (ailing = sample),
  };
};
