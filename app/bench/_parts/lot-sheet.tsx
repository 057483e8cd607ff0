'use client';
import { see } from '../../_live/selectors';
import { useLive } from '../../_live/use';
import { HoldPress, Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import { closeSheet, holdWords, intend } from './controls';
import { SheetFrame, SheetGrid } from './sheet';
import { LotsOf } from './start';
import { lotSub } from './start-lots';

/** Another lot for the line being weighed: the bag in the hand is not the one that was planned, or the first is empty. */
export function LotSheet() {
  const line = useLive(see.line);
  const { lot: words } = sheetMessages;
  if (line === null) return <SheetFrame title={words.title}>{words.none}</SheetFrame>;
  const { id, material, lot: now } = line.plan;
  return (
    <SheetFrame title={words.of(material.name)} teach={words.teach(now?.mark ?? null)}>
      <LotsOf line={id}>
        {(lots) => {
          const others = lots.filter((one) => one.id !== now?.id);
          if (others.length === 0) return <p>{words.noOther}</p>;
          return (
            <SheetGrid>
              {others.map((one, at) => {
                const held = one.fault !== undefined;
                const face = { name: one.mark, sub: lotSub(one, at, lots.length) };
                const take = (): void => {
                  intend({ kind: 'choose-lot', line: id, lot: { id: one.id, mark: one.mark }, held });
                  closeSheet();
                };
                return held ? (
                  <HoldPress key={one.id} {...face} words={holdWords} onHeld={take} />
                ) : (
                  <Press key={one.id} {...face} onTap={take} />
                );
              })}
            </SheetGrid>
          );
        }}
      </LotsOf>
    </SheetFrame>
  );
}
