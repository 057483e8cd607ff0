import { BATH_SECONDS, COLD, WARM } from '../help';
import { createProbeVoice } from '../voice/probe-voice';
import { random } from '../world/random';
import { createWorld } from '../world/world';
import type { DeviceOptions } from './args';
import { answer } from './instrument';
import type { Answers, Device, DeviceParts } from './instrument';

export const createProbeDevice = (options: Extract<DeviceOptions, { kind: 'probe' }>, parts: DeviceParts): Device => {
  const { seed, channel, rate } = options;
  const world = createWorld({ seed, scales: {} });
  const { warmth } = world;
  const voice = createProbeVoice({ warmth, place: channel, rate, random: random(seed, 'voice'), send: parts.say });

  const bathe = (celsius: number): string | null => {
    if (channel === 'room') return 'not-for-this-instrument';
    warmth[channel].bathe({ celsius, seconds: BATH_SECONDS, until: null });
    return null;
  };
  const quiet = (on: boolean) => () => {
    voice.silence(on);
    return null;
  };
  const answers: Answers = {
    'make-lye': () => (warmth.makeLye() ? null : 'already'),
    warm: () => bathe(WARM),
    cool: () => bathe(COLD),
    hurry({ times }) {
      warmth.hurry(times);
      return null;
    },
    ail({ word }) {
      voice.ail({ word });
      return null;
    },
    'read-as'({ celsius }) {
      voice.ail({ celsius });
      return null;
    },
    well() {
      voice.ail(null);
      return null;
    },
    'stop-frames': quiet(true),
    'start-frames': quiet(false),
    truth: () => null,
  };

  return {
    pass: (ms) => world.advance(ms, () => voice.step()),
    hear: (bytes) => voice.hear(bytes),
    joined: () => voice.joined(),
    tell(act) {
      const why = answer(answers, act);
      if (why === null) parts.done(act.act);
      else parts.refused(act.act, why);
    },
    truth: () => ({ channel, celsius: Math.round(warmth.celsius(channel) * 1_000), lyeMade: warmth.lyeMade }),
  };
};
