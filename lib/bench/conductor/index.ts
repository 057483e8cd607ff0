import type { InstrumentId } from '#lib/units/id';
import type { Observation } from '#lib/work/batch/index';
import type { Conductor } from '../conductor-types';
import { IDLE_CUE } from './blank';
import type { ConductorMemory } from './memory';

export type { ConductorMemory } from './memory';

/** Leads the weigh-in: readings and presses in, wants and one cue out. Pure; see `Conductor`. */
export const conductor: Conductor<ConductorMemory> = {
  initial: ({ episode }) => ({ episode }),
  step: (memory) => ({ memory, wants: [], cue: { ...IDLE_CUE, episode: memory.episode } }),
};

/** The settled weight a completed command may rest on: `null` while the scale is moving, late, blocked or already used up. */
export const settledOn = (_memory: ConductorMemory, _instrument: InstrumentId): Observation['settled'] => null;
