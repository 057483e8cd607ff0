import type { Monotonic } from '#lib/units/time';
import type { BatchState, Want } from '#lib/work/batch/index';
import type { BenchView } from './conductor-types';
import type { ConductorMemory } from './conductor/index';

/** The alarm entries wanted now: what should sound and does not, and what sounds and should not. Run on every tick: silence itself alarms. */
export const alarmWants = (_batch: BatchState | null, _view: BenchView, _memory: ConductorMemory, _now: Monotonic): readonly Want[] => [];
