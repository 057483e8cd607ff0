'use client';
import { useState } from 'react';
import { token } from '../../_live/preferences';
import { live } from '../../_live/use';
import { Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import styles from '../work.module.css';
import { SheetFrame, SheetGrid } from './sheet';

const KEYS = Array.from('23456789ABCDEFGHJKMNPQRSTVWXYZ');
const LENGTH = 8;

/** Types the one-time code, where a camera cannot read it from the printed square. */
export function PairSheet() {
  const [code, setCode] = useState('');
  const [said, setSaid] = useState<string>(sheetMessages.pair.teach);
  const enter = async (full: string): Promise<void> => {
    const answer = await live().pair(full);
    setCode('');
    if (answer === null) return;
    if (answer.token !== null) token.keep(answer.token);
    setSaid(
      answer.token !== null
        ? sheetMessages.pair.done
        : answer.waitMs > 0
          ? sheetMessages.pair.wait(Math.ceil(answer.waitMs / 1000))
          : sheetMessages.pair.wrong,
    );
  };
  const type = (key: string): void => {
    const next = code + key;
    setCode(next);
    if (next.length === LENGTH) void enter(next);
  };
  return (
    <SheetFrame title={sheetMessages.pair.title} teach={said}>
      <output className={styles['typed']}>{code.padEnd(LENGTH, '·')}</output>
      <div className={styles['letters']}>
        {KEYS.map((key) => (
          <Press key={key} name={key} onTap={() => type(key)} />
        ))}
      </div>
      <SheetGrid>
        <Press name={sheetMessages.keypad.delete} onTap={() => setCode(code.slice(0, -1))} />
      </SheetGrid>
    </SheetFrame>
  );
}
