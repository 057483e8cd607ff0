'use client';
import { useState } from 'react';
import { massText } from '#lib/units/format';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { HoldPress, Press } from '../../_ui/press';
import { reasonWords } from '#lib/words/reason-messages';
import { sheetMessages } from '../messages-sheets';
import { closeSheet, holdWords, intend } from './controls';
import { SheetFrame, SheetGrid } from './sheet';

const MOST = 4;
type Reason = (typeof sheetMessages.correct.reasons)[number];

/** Crosses a weight out: first why, then which, held. Both weights show for ever. */
export function CorrectSheet() {
  const display = useDisplay();
  const batch = useLive(see.batch);
  const [reason, setReason] = useState<Reason | null>(null);
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
  const weights = Object.values(batch?.lines ?? {})
    .flatMap((line) => line.contributions.map((one) => ({ one, name: line.plan.material.name })))
    .filter(({ one }) => one.struck === null)
    .toSorted((a, b) => b.one.wall - a.one.wall)
    .slice(0, MOST);
  const strike = (entry: string): void => {
    intend({ kind: 'strike', entry, reason, note: '', held: true });
    closeSheet();
  };
  return (
    <SheetFrame title={correct.title} teach={weights.length === 0 ? correct.none : correct.teach}>
      <SheetGrid>
        {weights.map(({ one, name }) => (
          <HoldPress
            key={one.entry}
            name={massText(one.net, display, one.weighed?.step ?? null)}
            sub={name}
            words={holdWords}
            onHeld={() => strike(one.entry)}
          />
        ))}
      </SheetGrid>
    </SheetFrame>
  );
}
