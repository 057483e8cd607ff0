'use client';
import { numberText } from '#lib/units/format';
import type { Figured, PouredSuperfat } from '#lib/work/batch/poured/types';
import type { Display } from '#lib/units/display';
import { useDisplay, useLive } from '../../_live/use';
import { potMessages } from '#lib/words/pot-messages';
import { potWords } from '../messages-pot';
import { percentText, pointsText } from './pot-line';
import { Rows } from './rows';
import type { Row } from './rows';
import { SheetFrame } from './sheet';
import { usePot } from './use-pot';

const MOST_PARTS = 4;
const MOST_STEPS = 2;

const share = (of: Figured | null, display: Display): string | null =>
  of === null ? null : potWords.plusMinus(percentText(of.value, display), pointsText((of.high - of.low) / 2, display));

const rowsOf = (superfat: PouredSuperfat, display: Display): readonly Row[] => [
  [potWords.superfat, share({ ...superfat, value: superfat.working }, display) ?? ''],
  [potWords.interval, potWords.between(percentText(superfat.low, display), percentText(superfat.high, display))],
  [potWords.worst, potWords.between(percentText(superfat.worst.low, display), percentText(superfat.worst.high, display))],
  [potWords.chance, percentText(superfat.lyeHeavy, display)],
];

const known = (label: string, value: string | null): readonly Row[] => (value === null ? [] : [[label, value]]);

/** The pot with its doubts, what makes them and what would lessen them. */
export function PotSheet() {
  const display = useDisplay();
  const pot = usePot();
  const scales = useLive(({ frame }) => frame?.scales);
  if (pot === null || pot.kind !== 'figures' || pot.superfat === null)
    return (
      <SheetFrame title={potWords.title} teach={pot === null || pot.kind === 'figures' ? '' : potMessages.unworked[pot.kind]}>
        {null}
      </SheetFrame>
    );
  const { superfat, lye, fragrance, full, volume } = pot;
  const named = ({ of, name }: { readonly of: string; readonly name: string }): string => scales?.find(({ id }) => id === of)?.name ?? name;
  return (
    <SheetFrame title={potWords.title} teach={potWords.teach}>
      <Rows
        rows={[
          ...rowsOf(superfat, display),
          ...known(potWords.lye, share(lye, display)),
          ...(pot.unlimited.length > 0
            ? known(potWords.fragrance, potWords.unlimited)
            : fragrance?.value === 0
              ? []
              : known(potWords.fragrance, share(fragrance, display))),
          ...(full === null
            ? known(potWords.volume, volume === null ? null : potWords.millilitres(numberText(volume.value, display.locale)))
            : known(potWords.full, share(full, display))),
        ]}
      />
      <h3>{potWords.wide}</h3>
      <Rows
        rows={superfat.parts
          .slice(0, MOST_PARTS)
          .map((part) => [potMessages.parts[part.what](named(part)), potWords.plusMinus('', pointsText(part.half, display)).trim()])}
      />
      {superfat.narrowing.length === 0 ? null : <h3>{potWords.narrower}</h3>}
      <Rows
        rows={superfat.narrowing
          .slice(0, MOST_STEPS)
          .map((step) => [
            potMessages.narrowing[step.by](named(step)),
            potWords.fromTo(pointsText(step.from, display), pointsText(step.to, display)),
          ])}
      />
    </SheetFrame>
  );
}
