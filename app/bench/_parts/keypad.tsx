'use client';
import { useEffect, useState } from 'react';
import type { ReactNode } from 'react';
import { decimalMark, massText } from '#lib/units/format';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import styles from '../work.module.css';
import { ReadBack, Takes } from './read-back';
import type { Taken } from './read-back';
import { SheetFrame, SheetGrid } from './sheet';
import { isMass, nothingTyped, readTyping, typeKey } from './typing';
import type { Reading, TypedWhat, Typing } from './typing';

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9'];

interface TypesProps {
  /** What may be typed; of one kind nothing is asked. */
  readonly kinds: readonly TypedWhat[];
  readonly title: (what: TypedWhat) => string;
  readonly teach: string;
  /** What sends the number, once it stands and is read back. */
  readonly takes: (typing: Typing, reading: Taken) => ReactNode;
}

/** A number typed on large keys, or a keyboard's, in this screen's units and marks. */
export function Types({ kinds, title, teach, takes }: TypesProps) {
  const display = useDisplay();
  const [typing, setTyping] = useState<Typing>(() => nothingTyped(kinds[0] ?? 'lye', display.mass));
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
    <SheetFrame title={title(typing.what)} teach={invalid ? (isMass(typing.what) ? words.invalid : words.tooHot) : teach}>
      <div className={styles['keypad']}>
        <Entry kinds={kinds} typing={typing} onChange={change} />
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
          <ReadBack reading={reading} onChange={() => change({ ...typing, meant: null })}>
            {takes(typing, reading)}
          </ReadBack>
        )}
      </div>
    </SheetFrame>
  );
}

/** A weight or a temperature by hand: typed, read back, and "by hand" in the record for ever. */
export function KeypadSheet() {
  const words = sheetMessages.keypad;
  const kinds = useKinds();
  const line = useLive(see.line);
  const display = useDisplay();
  // The sheet may lie over what is to be weighed, and how much of it.
  const of =
    line === null || kinds[0] !== 'weight' ? null : words.of(line.plan.material.name, massText(line.plan.target - line.actual, display));
  return (
    <Types
      kinds={kinds}
      title={(what) => (isMass(what) ? words.weightTitle : words.temperatureTitle)}
      teach={of ?? words.teach}
      takes={takes}
    />
  );
}

const takes = (typing: Typing, reading: Taken): ReactNode => <Takes typing={typing} reading={reading} />;

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

/** What may be typed now, the likeliest first. */
const useKinds = (): readonly TypedWhat[] => {
  const phase = useLive(see.phase);
  const joined = useLive(see.status) === 'joined';
  const line = useLive((state) => see.line(state)?.plan.id ?? null);
  if (joined) return ['portion', 'batter'];
  if (line === null || phase === 'temperatures' || phase === 'joining' || phase === 'gate') return ['lye', 'oils', 'room'];
  return ['weight', 'lye', 'oils'];
};

interface EntryProps {
  readonly typing: Typing;
  readonly onChange: (typing: Typing) => void;
}

function Entry({ kinds, typing, onChange }: EntryProps & { readonly kinds: readonly TypedWhat[] }) {
  const display = useDisplay();
  const words = sheetMessages.keypad;
  const weight = isMass(typing.what);
  return (
    <div className={styles['entry']}>
      {kinds.length === 1 ? null : (
        <SheetGrid columns={kinds.length === 2 ? 2 : 3}>
          {kinds.map((what) => (
            <Press
              key={what}
              name={words.kinds[what]}
              current={typing.what === what}
              onTap={() => onChange(nothingTyped(what, display.mass))}
            />
          ))}
        </SheetGrid>
      )}
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
