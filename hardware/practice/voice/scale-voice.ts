import type { ScaleShape } from '#lib/measure/shape';
import type { MassUnit } from '#lib/units/mass';
import { ascii, ENCODE, figure, stepIn } from '../encode/index';
import { echoMarker } from '../encode/echo-marker';
import { POLL } from '../encode/polls';
import type { Answer } from '../encode/polls';
import type { Random } from '../world/random';
import type { Scale } from '../world/scale';
import { STEP_MS } from '../world/step';
import { createMouth } from './voice';
import type { Send, Voice } from './voice';

export interface ScaleVoice extends Voice {
  /** Someone presses the scale's unit key. */
  unit(unit: MassUnit): void;
}

export interface ScaleVoiceOptions {
  readonly scale: Scale;
  readonly shape: ScaleShape;
  readonly unit: MassUnit;
  /** Frames a second by itself; 0: speaks only when asked. */
  readonly rate: number;
  readonly random: Random;
  readonly send: Send;
}

/** How long a scale waits for a stable figure before it says that there is none. */
const PATIENCE_MS = 5_000;
/** Longest command line taken; anything longer is noise. */
const LINE_CAP = 32;

export const createScaleVoice = (options: ScaleVoiceOptions): ScaleVoice => {
  const { scale, shape, random } = options;
  const mouth = createMouth(options.send, (length) => Math.floor(random.next() * length));
  const every = options.rate > 0 ? 1000 / options.rate : 100;
  let unit = options.unit;
  let streaming = options.rate > 0;
  let untilNext = every;
  let asked: { left: number; late: string; as: 'S' | 'SI' } | null = null;
  let heard = '';

  const say = (as: 'S' | 'SI'): void => {
    const { mass, motion, range } = scale.display();
    const step = stepIn(unit, scale.model.division);
    const frame = { ...figure(mass, unit, step), motion, range };
    mouth.say(shape === 'echo-marker' ? echoMarker(frame, as) : ENCODE[shape](frame, step));
  };
  const line = (text: string): void => {
    if (text !== '') mouth.say(ascii(`${text}\r\n`));
  };

  const obey = (answer: Answer): void => {
    switch (answer.kind) {
      case 'now':
        say(answer.as);
        return;
      case 'when-stable':
        line(answer.first);
        asked = { left: PATIENCE_MS, late: answer.late, as: answer.as };
        return;
      case 'stream':
        line(answer.first);
        streaming = answer.on;
        return;
      case 'say':
        line(answer.text);
    }
  };

  const waitForStable = (): void => {
    if (asked === null) return;
    asked.left -= STEP_MS;
    if (scale.display().motion === 'stable') say(asked.as);
    else if (asked.left <= 0) line(asked.late);
    else return;
    asked = null;
  };

  return {
    step() {
      waitForStable();
      untilNext -= STEP_MS;
      if (untilNext > 0) return;
      untilNext += every;
      if (streaming) say('SI');
    },
    hear(bytes) {
      for (const byte of bytes) {
        if (byte !== 0x0d && byte !== 0x0a) {
          heard = `${heard}${String.fromCharCode(byte)}`.slice(-LINE_CAP);
          continue;
        }
        const answer = heard === '' ? null : POLL[shape](heard);
        heard = '';
        if (answer !== null) obey(answer);
      }
    },
    joined: () => mouth.joined(),
    silence: (on) => mouth.silence(on),
    unit: (next) => void (unit = next),
  };
};
