import type { BenchCue } from '#lib/bench/cue';
import { toneOf, type Tone } from '#lib/bench/tone';
import type { Random } from './random';

/**
 * What the bench's tone does to a pouring hand. That people thin the flow as it closes is what the rules were tried with (unpublished
 * work of this project); how much is an assumption: most do, down to this share of their full flow. 1: does not heed it.
 */
export const drawEar = (random: Random): number => (random.chance(0.8) ? random.between(0.06, 0.25) : 1);

/** Call in every step: the tone as it reaches the hand, `delay` ms after it sounded. */
export const createEar = (delay: number): ((now: number, cue: BenchCue) => Tone) => {
  const heard: { readonly at: number; readonly tone: Tone }[] = [];
  return (now, cue) => {
    heard.push({ at: now, tone: toneOf(cue) });
    while (heard.length > 1 && (heard[1]?.at ?? now) <= now - delay) heard.shift();
    return heard[0]?.tone ?? { kind: 'none' };
  };
};

/** Two octaves from far to near: the pitch alone says how far it is. */
const FAR_HZ = 330;
const OCTAVES = 2;

/** The flow of a hand that would pour `flow` by what it sees, with this tone in the ear. `full`: its flow when nothing holds it back. */
export const byEar = (tone: Tone, flow: number, full: number, heeds: number): number => {
  if (tone.kind === 'late') return 0;
  if (tone.kind === 'steady') return Math.min(flow, full * heeds);
  if (tone.kind !== 'pulse') return flow;
  const far = 1 - Math.log2(tone.hz / FAR_HZ) / OCTAVES;
  return Math.min(flow, full * Math.max(heeds, far));
};
