'use client';
import { useMemo } from 'react';
import { asPoured } from '#lib/work/batch/poured/as-poured';
import type { LivePour, PouredAnswer } from '#lib/work/batch/poured/types';
import type { Milligrams } from '#lib/units/mass';
import { see } from '../../_live/selectors';
import type { LiveState } from '../../_live/store';
import { useLive } from '../../_live/use';

/** A pour that has passed its target: until then it changes nothing of what is planned. mg; `null` for none. */
const beyond = ({ frame }: LiveState): Milligrams | null => {
  const cue = frame?.cue;
  return cue?.left != null && cue.left < 0 && (cue.phase === 'pouring' || cue.phase === 'settling') ? cue.poured : null;
};

/** What the pot is now, the pour under way included; `null` without a batch. */
export const usePot = (): PouredAnswer | null => {
  const batch = useLive(see.batch);
  const net = useLive(beyond);
  const line = useLive(({ frame }) => frame?.cue.line ?? null);
  const instrument = useLive(({ frame }) => frame?.cue.instrument ?? null);
  const step = useLive(see.division);
  return useMemo(() => {
    if (batch === null) return null;
    const live: LivePour | null =
      net === null || line === null || instrument === null ? null : { line, net, instrument, step: (step ?? 100) as Milligrams };
    return asPoured(batch, live);
  }, [batch, net, line, instrument, step]);
};
