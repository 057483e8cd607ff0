'use client';
import { see } from '../../_live/selectors';
import { useLive } from '../../_live/use';
import { numberKind, shapeOf } from './shape';
import type { NumberKind, Seen, Shape } from './shape';

/** What the whole screen turns on, each part read as a primitive. */
export const useSeen = (): Seen & { readonly shape: Shape; readonly kind: NumberKind } => {
  const phase = useLive(see.phase);
  const block = useLive(see.block);
  const left = useLive(see.left);
  const tolerance = useLive(see.tolerance);
  const red = useLive(see.red);
  const link = useLive(see.link);
  const stale = useLive(see.stale);
  const joining = useLive(see.joining);
  const portioned = useLive(see.portioned) !== null;
  const joiningHeld = joining?.holds.some(({ level, overridden }) => level === 'hold' && !overridden) ?? false;
  const seen: Seen = { phase, block, left, tolerance, red, offline: link !== 'up' || stale, joiningHeld, portioned };
  return { ...seen, shape: shapeOf(seen), kind: numberKind(seen) };
};
