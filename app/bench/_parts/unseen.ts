'use client';
import { useEffect } from 'react';
import { live } from '../../_live/use';
import { useControls } from './controls';

/**
 * Nothing is accepted by itself while a sheet keeps the moment before it from being seen, or called off: a sheet has the back key to itself,
 * and on a small frame lies over the number. The bench is told, and gives the moment anew afterwards. Practice hands alone go on beside theirs.
 */
export const useNothingUnseen = (): void => {
  const covered = useControls(({ sheet }) => sheet !== 'none' && sheet !== 'scene');
  useEffect(() => {
    if (!covered) return undefined;
    live().cover(true);
    return () => live().cover(false);
  }, [covered]);
};
