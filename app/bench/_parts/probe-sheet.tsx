'use client';
import { differenceFigure, figureText, temperatureText } from '#lib/units/format';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { temperatureMessages } from '../messages-temperatures';
import { Rows } from './rows';
import { SheetFrame } from './sheet';

/** How a temperature comes about: what its probe shows, what its check adds, and what counts. */
export function ProbeSheet({ use }: { readonly use: 'lye' | 'oils' }) {
  const display = useDisplay();
  const value = useLive((state) => see[use](state)?.value ?? null);
  const correction = useLive((state) => see[use](state)?.correction ?? null);
  const { title, checked, unchecked, lost, shows, adds, counts } = temperatureMessages.reading;
  const offset = differenceFigure(correction ?? 0, display);
  return (
    <SheetFrame title={title(temperatureMessages.vessels[use])} teach={value === null ? lost : correction === null ? unchecked : checked}>
      <Rows
        rows={
          value === null
            ? []
            : [
                [shows, temperatureText(value - (correction ?? 0), display)],
                ...(correction === null ? [] : [[adds, figureText(offset)] as const]),
                [counts, temperatureText(value, display)],
              ]
        }
      />
    </SheetFrame>
  );
}
