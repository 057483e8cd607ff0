'use client';
import { useState } from 'react';
import { useDisplay } from '../../_live/use';
import { showIn } from '#lib/words/quantities';
import { workshop } from '../messages-workshop';
import { BenchWeight } from './bench-weight';
import { on } from './classes';

/** The water of a mould from the bench: filled less empty. Without an empty weight the scale was zeroed with the mould on it. */
export function MouldWater({ onWater }: { readonly onWater: (grams: string) => void }) {
  const [empty, setEmpty] = useState<number | null>(null);
  const [light, setLight] = useState(false);
  const display = useDisplay();
  const { weigh } = workshop;
  const filled = (gross: number): void => {
    const water = gross - (empty ?? 0);
    setLight(water <= 0);
    if (water > 0) onWater(String(water / 1000));
  };
  return (
    <>
      <BenchWeight
        acts={[
          { name: weigh.empty, take: setEmpty },
          { name: weigh.filled, take: filled },
        ]}
      />
      <p className={on('dim gap')}>{weigh.how}</p>
      <output>{light ? weigh.light : empty === null ? '' : weigh.fromEmpty(showIn(display).mass(empty))}</output>
    </>
  );
}
