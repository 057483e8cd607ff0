'use client';
import { useEffect, useState } from 'react';
import type { PersonRow } from '#lib/protocol/people';
import { usePreference } from '../../_live/use';
import { makersOf, peopleApi } from '../../_ui/people-api';
import { Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import styles from '../work.module.css';
import { closeSheet } from './controls';
import { SheetFrame, SheetGrid } from './sheet';

type Maker = PersonRow & { readonly name: string };

const nobody = (): void => {
  peopleApi.leave();
  closeSheet();
};

/** Who weighs: one tap, and a PIN for who has one. */
export function PeopleSheet() {
  const words = sheetMessages.people;
  const pass = usePreference((kept) => kept.pass);
  const [makers, setMakers] = useState<readonly Maker[] | null>(null);
  const [asked, setAsked] = useState<Maker | null>(null);
  const [said, setSaid] = useState('');
  useEffect(() => {
    const load = async (): Promise<void> => {
      const answer = await peopleApi.list();
      if (answer.ok) setMakers(makersOf(answer.value));
      else setSaid(answer.problem.error);
    };
    void load();
  }, []);
  const take = async (maker: Maker, pin: string | null): Promise<void> => {
    const answer = await peopleApi.switchTo(maker.id, pin);
    if (answer.ok) closeSheet();
    else setSaid(`${answer.problem.error} ${answer.problem.todo}`);
  };
  const teach = said !== '' ? said : makers?.length === 0 ? words.none : words.teach;
  if (asked !== null) return <PinEntry maker={asked} said={said} onPin={(pin) => void take(asked, pin)} />;
  return (
    <SheetFrame title={words.title} teach={teach}>
      <SheetGrid>
        {(makers ?? []).map((maker) => (
          <Press
            key={maker.id}
            name={maker.name}
            sub={pass?.split('.')[0] === maker.id ? words.here : maker.pin ? words.pin : ''}
            onTap={maker.pin ? () => setAsked(maker) : () => void take(maker, null)}
          />
        ))}
        {pass === null ? null : <Press name={words.nobody} onTap={nobody} />}
      </SheetGrid>
    </SheetFrame>
  );
}

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9'] as const;

function PinEntry({ maker, said, onPin }: { readonly maker: Maker; readonly said: string; readonly onPin: (pin: string) => void }) {
  const words = sheetMessages.people;
  const [pin, setPin] = useState('');
  const enter = (): void => {
    onPin(pin);
    setPin('');
  };
  return (
    <SheetFrame title={words.pinOf(maker.name)} teach={said === '' ? words.pinTeach : said}>
      <p className={styles['code']} aria-label={words.typed(pin.length)}>
        {'•'.repeat(pin.length)}
      </p>
      <SheetGrid columns={3}>
        {DIGITS.map((digit) => (
          <Press key={digit} name={digit} onTap={() => setPin(pin + digit)} />
        ))}
        <Press name={sheetMessages.keypad.delete} onTap={pin === '' ? undefined : () => setPin('')} />
        <Press name="0" onTap={() => setPin(`${pin}0`)} />
        <Press name={words.enter} onTap={pin === '' ? undefined : enter} loud={pin !== ''} />
      </SheetGrid>
    </SheetFrame>
  );
}
