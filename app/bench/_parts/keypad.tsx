'use client';
import { useEffect, useState } from 'react';
import { decimalMark } from '#lib/units/format';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { HoldPress, Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import styles from '../work.module.css';
import { closeSheet, holdWords, intend } from './controls';
import { SheetFrame, SheetGrid } from './sheet';
import { nothingTyped, readTyping, typeKey } from './typing';
import type { Reading, Typing } from './typing';

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9'];

/** A weight or a temperature by hand: typed, read back, and "by hand" in the record for ever. */
export function KeypadSheet() {
  const display = useDisplay();
  const phase = useLive(see.phase);
  const line = useLive(see.line);
  const first = line === null || phase === 'temperatures' || phase === 'joining' ? 'lye' : 'weight';
  const [typing, setTyping] = useState<Typing>(() => nothingTyped(first, display.mass));
  const [reading, setReading] = useState<Reading | null>(null);
  const mark = decimalMark(display.locale);
  const key = (pressed: string): void => {
    setTyping((before) => typeKey(before, pressed));
    setReading(null);
  };
  useTyping(key);
  const words = sheetMessages.keypad;
  const take = (): void => setReading(readTyping(typing, display));
  return (
    <SheetFrame title={typing.what === 'weight' ? words.weightTitle : words.temperatureTitle} teach={words.teach}>
      <div className={styles['keypad']}>
        <Entry typing={typing} reading={reading} onChange={setTyping} onReading={setReading} />
        <div className={styles['pad']}>
          {DIGITS.map((digit) => (
            <Press key={digit} name={digit} onTap={() => key(digit)} />
          ))}
          <Press name={mark} onTap={() => key(mark)} />
          <Press name="0" onTap={() => key('0')} />
          <Press name={words.delete} onTap={() => key('delete')} />
          <Press className={styles['take']} name={words.take} onTap={take} loud />
        </div>
      </div>
    </SheetFrame>
  );
}

/** A keyboard's own digits go to the number; both marks are taken as typed, and asked about when they could be either. */
const useTyping = (key: (pressed: string) => void): void =>
  useEffect(() => {
    const type = (event: KeyboardEvent): void => {
      const pressed = event.key === 'Backspace' || event.key === 'Delete' ? 'delete' : event.key;
      if (!/^[\d.,]$|^delete$/.test(pressed)) return;
      // Here it corrects a digit; it does not go back.
      event.stopPropagation();
      key(pressed);
    };
    window.addEventListener('keydown', type, { capture: true });
    return () => window.removeEventListener('keydown', type, { capture: true });
  });

interface EntryProps {
  readonly typing: Typing;
  readonly reading: Reading | null;
  readonly onChange: (typing: Typing) => void;
  readonly onReading: (reading: Reading | null) => void;
}

function Entry({ typing, reading, onChange, onReading }: EntryProps) {
  const display = useDisplay();
  const line = useLive(see.line);
  const words = sheetMessages.keypad;
  const choose = (what: Typing['what']) => (): void => {
    onChange(nothingTyped(what, display.mass));
    onReading(null);
  };
  const weight = typing.what === 'weight';
  return (
    <div className={styles['entry']}>
      <SheetGrid>
        {line === null ? null : <Press name={words.weight} current={weight} onTap={choose('weight')} />}
        <Press name={words.lye} current={typing.what === 'lye'} onTap={choose('lye')} />
        <Press name={words.oils} current={typing.what === 'oils'} onTap={choose('oils')} />
      </SheetGrid>
      {weight && display.mass === 'lb' ? (
        <SheetGrid>
          <Press
            name={`${typing.pounds || '·'} ${words.pounds}`}
            current={typing.field === 'pounds'}
            onTap={() => onChange({ ...typing, field: 'pounds' })}
          />
          <Press
            name={`${typing.text || '·'} ${words.ounces}`}
            current={typing.field === 'text'}
            onTap={() => onChange({ ...typing, field: 'text' })}
          />
        </SheetGrid>
      ) : (
        <output className={styles['typed']} data-typed={typing.text}>
          {typing.text === '' ? '·' : typing.text} {weight ? (display.mass === 'g' ? 'g' : words.ounces) : `°${display.temperature}`}
        </output>
      )}
      {reading === null ? null : <ReadBack typing={typing} reading={reading} onChange={onChange} onReading={onReading} />}
    </div>
  );
}

function ReadBack({ typing, reading, onChange, onReading }: EntryProps & { readonly reading: Reading }) {
  const display = useDisplay();
  const line = useLive(see.line);
  const words = sheetMessages.keypad;
  if (reading.kind === 'ambiguous')
    return (
      <div role="alert">
        <p>{words.ambiguous}</p>
        <SheetGrid>
          {reading.readings.map(({ decimal, shown }) => {
            const meant = { ...typing, meant: decimal };
            return (
              <Press
                key={decimal}
                name={shown}
                onTap={() => (onChange(meant), onReading(readTyping(meant, display)))}
                data={{ 'data-reading': decimal }}
              />
            );
          })}
        </SheetGrid>
      </div>
    );
  if (reading.kind === 'invalid' || reading.kind === 'unfinished')
    return <p role="alert">{typing.what === 'weight' ? words.invalid : words.tooHot}</p>;
  const send = (part: boolean, held: boolean): void => {
    if (reading.kind === 'temperature')
      intend({ kind: 'type-temperature', use: typing.what === 'weight' ? 'room' : typing.what, value: reading.value });
    else if (line !== null)
      intend({
        kind: 'type-weight',
        line: line.plan.id,
        net: reading.net,
        text: reading.text,
        unit: reading.unit,
        readBack: true,
        part,
        held,
      });
    closeSheet();
  };
  const held = line?.plan.material.class === 'hydroxide' && reading.kind === 'weight';
  return (
    <div role="alert">
      <p>{words.readBack}</p>
      <output className={styles['typed']} data-read={reading.shown}>
        {reading.shown}
      </output>
      <SheetGrid>
        {held ? (
          <HoldPress name={words.right} sub={line.plan.material.name} words={holdWords} onHeld={() => send(false, true)} />
        ) : (
          <Press name={words.right} onTap={() => send(false, false)} loud />
        )}
        {reading.kind !== 'weight' ? null : held ? (
          <HoldPress name={words.part} words={holdWords} onHeld={() => send(true, true)} />
        ) : (
          <Press name={words.part} onTap={() => send(true, false)} />
        )}
      </SheetGrid>
    </div>
  );
}
