import type { BenchCue } from '#lib/bench/cue';
import type { LiveFrame } from '#lib/protocol/live';

/**
 * The frame with every number out of it, and every button that would act on one. The one place where values are blanked: names,
 * the phase and running alarms stay, so that the screen still says what it was about.
 */
export const blankFrame = (frame: LiveFrame): LiveFrame => ({
  ...frame,
  scales: frame.scales.map((scale) => ({ ...scale, freshness: 'lost', age: null, gross: null, last: null })),
  probes: frame.probes.map((probe) => ({ ...probe, freshness: 'lost', age: null, value: null, last: null })),
  cue: blankCue(frame.cue),
});

const blankCue = (cue: BenchCue): BenchCue => ({
  ...cue,
  poured: null,
  total: null,
  left: null,
  overshoot: null,
  easeOff: false,
  holdSound: false,
  acceptsIn: null,
  settle: null,
  cards: [],
  selected: -1,
  goOn: null,
  joining: null,
  say: null,
});
