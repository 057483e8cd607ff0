import type { BenchCue } from '../cue';

/** A cue that says nothing: no batch is armed. Every other cue starts from this one, so a new field cannot be forgotten. */
export const IDLE_CUE: BenchCue = {
  phase: 'idle',
  line: null,
  vessel: null,
  instrument: null,
  poured: null,
  total: null,
  left: null,
  target: null,
  tolerance: null,
  red: false,
  overshoot: null,
  easeOff: false,
  holdSound: false,
  acceptsIn: null,
  settle: null,
  doubts: [],
  block: null,
  cards: [],
  selected: -1,
  goOn: null,
  gate: null,
  joining: null,
  say: null,
  episode: 0,
};
