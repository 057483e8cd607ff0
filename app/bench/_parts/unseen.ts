'use client';
import { useEffect } from 'react';
import { see } from '../../_live/selectors';
import { useLive } from '../../_live/use';
import { press, useControls } from './controls';

/** The server swallows what comes within 600 ms of a change, and half a second later again it would be too late. */
const CALL_OFF_MS = 650;

/**
 * Nothing is accepted by itself while a sheet keeps the moment before it from being seen, or called off: a sheet has the back key to itself,
 * and on a small frame lies over the number. Called off, the weight waits and asks. Practice hands alone go on beside theirs.
 */
export const useNothingUnseen = (): void => {
  const sheet = useControls((state) => state.sheet);
  const offered = useLive((state) => see.phase(state) === 'offer' && see.mine(state));
  const unseen = offered && sheet !== 'none' && sheet !== 'scene';
  useEffect(() => {
    if (!unseen) return undefined;
    const calling = setInterval(() => press('back', false), CALL_OFF_MS);
    return () => clearInterval(calling);
  }, [unseen]);
};
