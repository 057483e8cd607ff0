'use client';
import { useEffect } from 'react';
import { see } from '../../_live/selectors';
import { useLive } from '../../_live/use';
import { press, useControls } from './controls';

/**
 * Nothing is accepted by itself while a sheet keeps the moment before it from being seen, or called off: a sheet has the back key to itself,
 * and on a small frame lies over the number. Called off, the weight waits and asks. Practice hands alone go on beside theirs.
 */
export const useNothingUnseen = (): void => {
  const sheet = useControls((state) => state.sheet);
  const offered = useLive((state) => see.phase(state) === 'offer' && see.mine(state));
  const unseen = offered && sheet !== 'none' && sheet !== 'scene';
  useEffect(() => (unseen ? press('back', false) : undefined), [unseen]);
};
