import { createStore } from 'zustand/vanilla';
import type { Signal, Tone } from '#lib/bench/tone';

/** `test`: what arming plays, so that a person hears that it works. */
export type SoundSignal = Signal | 'test';

/** `unarmed`: no tap yet. `blocked`: the browser stopped the sound (a lock screen, a call) and a tap is needed again. */
export type SoundState = 'absent' | 'unarmed' | 'armed' | 'muted' | 'blocked';

interface Sound {
  readonly state: SoundState;
  /** The audio context's own word, written into the page: the only witness a test may believe. */
  readonly context: AudioContextState | 'none';
  /** An alarm rings, or would if the sound were on. */
  readonly ringing: boolean;
}

interface Note {
  readonly hz: number;
  readonly at: number;
  readonly for: number;
}

const SIGNALS: Readonly<Record<SoundSignal, readonly Note[]>> = {
  test: [
    { hz: 660, at: 0, for: 0.12 },
    { hz: 990, at: 0.14, for: 0.2 },
  ],
  'ease-off': [
    { hz: 1760, at: 0, for: 0.07 },
    { hz: 1760, at: 0.11, for: 0.07 },
    { hz: 1760, at: 0.22, for: 0.07 },
  ],
  over: [
    { hz: 620, at: 0, for: 0.22 },
    { hz: 415, at: 0.24, for: 0.4 },
  ],
  accepted: [
    { hz: 880, at: 0, for: 0.08 },
    { hz: 1320, at: 0.1, for: 0.16 },
  ],
  held: [{ hz: 520, at: 0, for: 0.1 }],
};
const ALARM: readonly Note[] = [
  { hz: 740, at: 0, for: 0.25 },
  { hz: 554, at: 0.3, for: 0.25 },
  { hz: 740, at: 0.6, for: 0.25 },
];
const ALARM_EVERY_MS = 1_600;
/** Pitch glides, so that a step of the weight is no click. */
const GLIDE_S = 0.08;
const LOUD = 0.35;
const SOFT = 0.12;

interface Graph {
  readonly context: AudioContext;
  readonly pitch: OscillatorNode;
  readonly pulse: OscillatorNode;
  readonly depth: GainNode;
  readonly level: GainNode;
}

/**
 * One oscillator whose loudness another one pulses. Nothing is scheduled ahead: the audio thread pulses on its own and does not stutter
 * when the page is busy; frames only turn its knobs.
 */
const build = (): Graph => {
  const context = new AudioContext();
  const pitch = new OscillatorNode(context, { type: 'sine', frequency: 330 });
  const pulse = new OscillatorNode(context, { type: 'square', frequency: 2 });
  const soften = new BiquadFilterNode(context, { type: 'lowpass', frequency: 40 });
  const depth = new GainNode(context, { gain: 0 });
  const level = new GainNode(context, { gain: 0 });
  pulse.connect(soften).connect(depth).connect(level.gain);
  pitch.connect(level).connect(context.destination);
  pitch.start();
  pulse.start();
  return { context, pitch, pulse, depth, level };
};

const play = ({ context }: Graph, notes: readonly Note[], type: OscillatorType): void => {
  for (const { hz, at, for: length } of notes) {
    const from = context.currentTime + 0.01 + at;
    const note = new OscillatorNode(context, { type, frequency: hz });
    const gain = new GainNode(context, { gain: 0 });
    gain.gain.setTargetAtTime(LOUD, from, 0.008);
    gain.gain.setTargetAtTime(0, from + length, 0.03);
    note.connect(gain).connect(context.destination);
    note.start(from);
    note.stop(from + length + 0.2);
  }
};

export interface SoundOut {
  readonly store: ReturnType<typeof createSoundStore>;
  /** From a gesture only: makes or wakes the context, and says so with a test sound. */
  arm(): void;
  mute(muted: boolean): void;
  /** Every gesture: a context that the system stopped is woken as soon as a finger allows it. */
  wake(): void;
  tone(tone: Tone): void;
  signal(signal: SoundSignal): void;
  /** What rings, named by all that is wrong; `null`: nothing. A new name rings again although the last one was hushed. */
  alarm(name: string | null): void;
  /** Stops this alarm on this page. It is not an acknowledgement: the screen keeps showing it. */
  hush(): void;
}

const createSoundStore = () => createStore<Sound>(() => ({ state: 'unarmed', context: 'none', ringing: false }));

export const createSound = (): SoundOut => {
  const store = createSoundStore();
  let graph: Graph | null = null;
  let muted = false;
  let current: Tone = { kind: 'none' };
  let alarm: { readonly name: string; readonly timer: ReturnType<typeof setInterval> } | null = null;
  let hushed: string | null = null;

  const judge = (): void => {
    const context = graph?.context.state ?? 'none';
    const state = graph === null ? 'unarmed' : muted ? 'muted' : context === 'running' ? 'armed' : 'blocked';
    const before = store.getState();
    if (before.state !== state || before.context !== context) store.setState({ state, context });
  };
  const resume = async (): Promise<void> => {
    try {
      await graph?.context.resume();
    } catch {
      // Stays blocked, and the badge says so.
    }
    judge();
  };
  const turn = ({ context, pitch, pulse, depth, level }: Graph): void => {
    const now = context.currentTime;
    const set = (knob: AudioParam, value: number, over = 0.02): void => void knob.setTargetAtTime(value, now, over);
    const tone: Tone = muted || alarm !== null ? { kind: 'none' } : current;
    const beating = tone.kind === 'pulse' || tone.kind === 'late';
    if (tone.kind === 'pulse' || tone.kind === 'steady') set(pitch.frequency, tone.hz, GLIDE_S / 3);
    if (tone.kind === 'late') set(pitch.frequency, 220);
    set(pulse.frequency, tone.kind === 'pulse' ? tone.perSecond : 12, 0.001);
    set(depth.gain, beating ? LOUD / 2 : 0);
    set(level.gain, beating ? LOUD / 2 : tone.kind === 'steady' ? SOFT : 0);
  };
  const stopAlarm = (): void => {
    if (alarm !== null) clearInterval(alarm.timer);
    alarm = null;
  };
  const ring = (): void => {
    if (graph !== null && !muted) play(graph, ALARM, 'square');
  };

  return {
    store,
    arm() {
      if (typeof AudioContext === 'undefined') return store.setState({ state: 'absent' });
      if (graph === null) {
        graph = build();
        graph.context.addEventListener('statechange', judge);
      }
      muted = false;
      const { context } = graph;
      const test = (): void => void (context.state === 'running' && graph !== null && play(graph, SIGNALS.test, 'triangle'));
      void resume().then(test);
      turn(graph);
      return undefined;
    },
    mute(wanted) {
      muted = wanted;
      judge();
      if (graph !== null) turn(graph);
    },
    wake() {
      if (graph !== null && graph.context.state !== 'running') void resume();
    },
    tone(tone) {
      current = tone;
      if (graph !== null) turn(graph);
    },
    signal(signal) {
      if (graph !== null && !muted) play(graph, SIGNALS[signal], signal === 'ease-off' ? 'square' : 'triangle');
    },
    alarm(name) {
      if (name === null) hushed = null;
      if (name === (alarm?.name ?? null) || (name !== null && name === hushed)) return;
      stopAlarm();
      if (name !== null) {
        ring();
        alarm = { name, timer: setInterval(ring, ALARM_EVERY_MS) };
      }
      store.setState({ ringing: alarm !== null });
      if (graph !== null) turn(graph);
    },
    hush() {
      hushed = alarm?.name ?? hushed;
      stopAlarm();
      store.setState({ ringing: false });
    },
  };
};
