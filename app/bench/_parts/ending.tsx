'use client';
import { useState } from 'react';
import { HoldPress, Press } from '../../_ui/press';
import { messages } from '../messages';
import { sheetMessages } from '../messages-sheets';
import { closeSheet, holdWords, intend } from './controls';
import { SheetFrame, SheetGrid } from './sheet';

/** Parking, stopping and closing a batch. Stopping is held, with a reason. */
export function EndingSheet({ how }: { readonly how: 'park' | 'abandon' | 'close' }) {
  const [reason, setReason] = useState<string | null>(null);
  const { ending } = sheetMessages;
  const { more } = messages;
  if (how === 'park')
    return (
      <SheetFrame title={ending.parkTitle} teach={ending.parkTeach}>
        <HoldPress
          name={more.park}
          sub={messages.press.hold}
          words={holdWords}
          onHeld={() => (intend({ kind: 'park', reason: '' }), closeSheet())}
        />
      </SheetFrame>
    );
  if (how === 'close')
    return (
      <SheetFrame title={ending.closeTitle} teach={ending.closeTeach}>
        <HoldPress name={more.close} sub={messages.press.hold} words={holdWords} onHeld={() => (intend({ kind: 'close' }), closeSheet())} />
      </SheetFrame>
    );
  return (
    <SheetFrame title={ending.abandonTitle} teach={ending.abandonTeach}>
      <SheetGrid>
        {ending.reasons.map((word) => (
          <Press key={word} name={word} current={word === reason} onTap={() => setReason(word)} />
        ))}
        {reason === null ? null : (
          <HoldPress
            name={more.abandon}
            sub={messages.press.hold}
            words={holdWords}
            onHeld={() => (intend({ kind: 'abandon', reason, held: true }), closeSheet())}
          />
        )}
      </SheetGrid>
    </SheetFrame>
  );
}
