'use client';
import { useState } from 'react';
import { HoldPress, Press } from '../../_ui/press';
import { messages } from '../messages';
import { sheetMessages } from '../messages-sheets';
import { closeSheet, holdWords, intend } from './controls';
import { SheetFrame, SheetGrid } from './sheet';

/** Parking, stopping and closing a batch. Each is held; parking and stopping say why, since the record takes neither without. */
export function EndingSheet({ how }: { readonly how: 'park' | 'abandon' | 'close' }) {
  const [reason, setReason] = useState<string | null>(null);
  const { ending, more } = sheetMessages;
  if (how === 'close')
    return (
      <SheetFrame title={ending.closeTitle} teach={ending.closeTeach}>
        <HoldPress name={more.close} sub={messages.press.hold} words={holdWords} onHeld={() => (intend({ kind: 'close' }), closeSheet())} />
      </SheetFrame>
    );
  const parks = how === 'park';
  const send = (why: string): void => {
    intend(parks ? { kind: 'park', reason: why } : { kind: 'abandon', reason: why, held: true });
    closeSheet();
  };
  return (
    <SheetFrame title={parks ? ending.parkTitle : ending.abandonTitle} teach={parks ? ending.parkTeach : ending.abandonTeach}>
      <SheetGrid>
        {(parks ? ending.parkReasons : ending.reasons).map((word) => (
          <Press key={word} name={word} current={word === reason} onTap={() => setReason(word)} />
        ))}
        {reason === null ? null : (
          <HoldPress name={parks ? more.park : more.abandon} sub={messages.press.hold} words={holdWords} onHeld={() => send(reason)} />
        )}
      </SheetGrid>
    </SheetFrame>
  );
}
