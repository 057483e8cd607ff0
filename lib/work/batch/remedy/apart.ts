import type { MilliCelsius } from '#lib/units/temperature';
import type { BatchState, LineState } from '../state';
import { NO_FACTS } from './facts';
import { standsOf } from './stand';

/** Whether a line's mass lies by itself in its vessel, or solid beside others: what of it is mixed comes back out of nothing. */
export const isApart = (state: BatchState, { plan }: LineState, oils: MilliCelsius | null): boolean =>
  standsOf(state, { ...NO_FACTS, oils, stirredIn: state.stirredIn }).some(
    ({ id, apart, mass }) => id === plan.id && (apart > 0 || mass === 0),
  );
