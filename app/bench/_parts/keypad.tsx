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
  const change = (next: Typing): void => {
    setTyping(next);
    setReading(null);
  };
  const key = (pressed: string): void => {
    setTyping((before) => typeKey(before, pressed));
    setReading(null);
  };
  useTyping(key);
  const words = sheetMessages.keypad;
  const take = (): void => setReading(readTyping(typing, display));
  const invalid = reading?.kind === 'invalid' || reading?.kind === 'unfinished';
  return (
    <SheetFrame
      title={typing.what === 'weight' ? words.weightTitle : words.temperatureTitle}
      teach={invalid ? (typing.what === 'weight' ? words.invalid : words.tooHot) : words.teach}
    >
      <div className={styles['keypad']}>
        <Entry typing={typing} onChange={change} />
        {reading === null || invalid ? (
          <div className={styles['pad']}>
            {DIGITS.map((digit) => (
              <Press key={digit} name={digit} onTap={() => key(digit)} />
            ))}
            <Press name={mark} onTap={() => key(mark)} />
            <Press name="0" onTap={() => key('0')} />
            <Press name={words.delete} onTap={() => key('delete')} />
            <Press className={styles['take']} name={words.take} onTap={take} loud />
          </div>
        ) : reading.kind === 'ambiguous' ? (
          <Ambiguous
            reading={reading}
            onMeant={(meant) => (setTyping(meantAs(typing, meant)), setReading(readTyping(meantAs(typing, meant), display)))}
          />
        ) : (
          <ReadBack typing={typing} reading={reading} onChange={change} />
        )}
      </div>
    </SheetFrame>
  );
}

const meantAs = (typing: Typing, meant: string): Typing => ({ ...typing, meant });

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
  readonly onChange: (typing: Typing) => void;
}

function Entry({ typing, onChange }: EntryProps) {
  const display = useDisplay();
  const line = useLive(see.line);
  const words = sheetMessages.keypad;
  const choose = (what: Typing['what']) => (): void => onChange(nothingTyped(what, display.mass));
  const weight = typing.what === 'weight';
  return (
    <div className={styles['entry']}>
      <SheetGrid columns={3}>
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
    </div>
  );
}

type Ambiguity = Extract<Reading, { kind: 'ambiguous' }>;

/** "1,250" could be either: the person says which, and nothing is taken before. */
function Ambiguous({ reading, onMeant }: { readonly reading: Ambiguity; readonly onMeant: (decimal: string) => void }) {
  return (
    <div className={styles['entry']} role="alert">
      <p>{sheetMessages.keypad.ambiguous}</p>
      <SheetGrid>
        {reading.readings.map(({ decimal, shown }) => (
          <Press key={decimal} name={shown} onTap={() => onMeant(decimal)} data={{ 'data-reading': decimal }} />
        ))}
      </SheetGrid>
    </div>
  );
}

type Taken = Extract<Reading, { kind: 'weight' | 'temperature' }>;

/** What was typed, large, to be read aloud against the scale or the thermometer; only then is it sent. */
function ReadBack({ typing, reading, onChange }: EntryProps & { readonly reading: Taken }) {
  const line = useLive(see.line);
  const words = sheetMessages.keypad;
  const send = (part: boolean, held: boolean): void => {
    if (reading.kind === 'temperature') {
      if (typing.what !== 'weight') intend({ kind: 'type-temperature', use: typing.what, value: reading.value });
    } else if (line !== null)
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
  const weight = reading.kind === 'weight';
  const held = weight && line?.plan.material.class === 'hydroxide';
  return (
    <div className={styles['entry']} role="alert">
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
        <Press name={words.wrong} onTap={() => onChange({ ...typing, meant: null })} />
        {!weight ? null : held ? (
          <HoldPress name={words.part} words={holdWords} onHeld={() => send(true, true)} />
        ) : (
          <Press name={words.part} onTap={() => send(true, false)} />
        )}
      </SheetGrid>
    </div>
  );
}
