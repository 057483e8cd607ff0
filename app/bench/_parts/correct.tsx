'use client';
import { useState } from 'react';
import { massText } from '#lib/units/format';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { HoldPress, Press } from '../../_ui/press';
import { reasonWords } from '#lib/words/reason-messages';
import { sheetMessages } from '../messages-sheets';
import { closeSheet, holdWords, intend } from './controls';
import { crossable } from './crossable';
import { SheetFrame, SheetGrid } from './sheet';

/** At once, so that each is large enough for a glove. */
const MOST = 4;
type Reason = (typeof sheetMessages.correct.reasons)[number];

/** Crosses a weight out: first why, then which, held. Both weights show for ever. */
export function CorrectSheet() {
  const display = useDisplay();
  const batch = useLive(see.batch);
  const [reason, setReason] = useState<Reason | null>(null);
  const [page, setPage] = useState(0);
  const { correct } = sheetMessages;
  if (reason === null)
    return (
      <SheetFrame title={correct.title} teach={correct.why}>
        <SheetGrid>
          {correct.reasons.map((key) => (
            <Press key={key} name={reasonWords[key]} onTap={() => setReason(key)} />
          ))}
        </SheetGrid>
      </SheetFrame>
    );
  const all = batch === null ? [] : crossable(batch);
  const weights = all.slice(MOST * page, MOST * (page + 1));
  const more = all.length > MOST ? () => setPage(MOST * (page + 1) < all.length ? page + 1 : 0) : null;
  const strike = (entry: string): void => {
    intend({ kind: 'strike', entry, reason, note: '', held: true });
    closeSheet();
  };
  return (
    <SheetFrame title={correct.title} teach={weights.length === 0 ? correct.none : correct.teach}>
      <SheetGrid>
        {weights.map(({ entry, name, mass, step }) => (
          <HoldPress key={entry} name={massText(mass, display, step)} sub={name} words={holdWords} onHeld={() => strike(entry)} />
        ))}
        {more === null ? null : <Press name={correct.more} onTap={more} />}
      </SheetGrid>
    </SheetFrame>
  );
}
