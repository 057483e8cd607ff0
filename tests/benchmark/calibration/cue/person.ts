import type { BenchCue } from '#lib/bench/cue';
import type { Tone } from '#lib/bench/tone';
import { byEar, drawEar } from '../ear';
import type { Random } from '../random';
import { POURED, type Poured } from '../pours';

/**
 * One person, drawn once: how they pour is theirs from pour to pour, with some scatter. Written from what hands do, not from the practice
 * pourer nor from the cue's own arithmetic. Times in ms.
 */
export interface Person {
  /** From hearing or deciding to the hand, and its scatter. */
  readonly react: number;
  readonly scatter: number;
  /** Figure to eye. */
  readonly eye: number;
  /** What they allow for by themselves: the flow goes on that long after they decide. */
  readonly guess: number;
  /** The whole amount would take this long at full flow. */
  readonly brisk: number;
  /** They thin the flow so that the rest would take this long; 0: not at all. */
  readonly taper: number;
  /** The thinnest flow they hold, as a share of the full one, when the tone closes; 1: they do not heed it. */
  readonly heeds: number;
  readonly kind: Poured;
}

export const drawPerson = (random: Random): Person => {
  const react = random.between(180, 600);
  const eye = random.between(120, 260);
  return {
    react,
    scatter: random.between(30, 110),
    eye,
    // People know their own hand and guess at the scale: not the scale's delay, and a fifth too much or too little.
    guess: (react + eye + random.between(200, 500)) * (1 + 0.2 * random.gauss()),
    brisk: random.between(4000, 10_000),
    taper: random.chance(0.9) ? random.between(800, 2200) : 0,
    heeds: drawEar(random),
    kind: random.pick(POURED),
  };
};

/** How a pour is stopped: by the figure as it stands, by the figure with what they allow for, or by the bench's cue and tone. */
export const MANNERS = ['figure', 'guess', 'cue'] as const;
export type Manner = (typeof MANNERS)[number];

/** What a person has before them in this step. `net`: the figure as it was an eye's delay ago, mg; `null`: none. */
export interface Before {
  readonly net: number | null;
  readonly cue: BenchCue;
  /** The tone as it has come to the hand. */
  readonly tone: Tone;
  readonly target: number;
  /** Flow the hand asked for so far, mg per ms. */
  readonly flow: number;
}

/** The flow this person wants, mg per ms. */
export const wants = (person: Person, manner: Manner, { net, tone, target }: Before): number => {
  const full = target / person.brisk;
  const least = 0.04 * full;
  const left = target - (net ?? 0);
  const tapered = person.taper === 0 ? full : Math.min(full, Math.max(least, left / person.taper));
  return manner === 'cue' ? byEar(tone, tapered, full, person.heeds) : tapered;
};

/** Whether this person has had enough. */
export const enough = (person: Person, manner: Manner, { net, cue, target, flow }: Before): boolean => {
  const left = target - (net ?? 0);
  if (manner === 'figure') return left <= 0;
  if (manner === 'guess') return left - flow * person.guess <= 0;
  return cue.easeOff || left <= 0;
};
