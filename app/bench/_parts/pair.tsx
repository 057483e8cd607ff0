'use client';
import { useState } from 'react';
import { token } from '../../_live/preferences';
import { see } from '../../_live/selectors';
import { live, useLive } from '../../_live/use';
import { Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import styles from '../work.module.css';
import { SheetFrame } from './sheet';

/** Types the one-time code, where a camera cannot read it from the printed square. Done at a desk, so with the screen's own keyboard. */
export function PairSheet() {
  const [code, setCode] = useState('');
  const { title, label, open, teach, wrong, wait, done } = sheetMessages.pair;
  const [said, setSaid] = useState<string>(teach);
  // Seen by the server's own word: the screen may weigh, and there is nothing more to type.
  const may = useLive(see.role) === 'maker';
  const enter = async (): Promise<void> => {
    const answer = await live().pair(code);
    if (answer === null) return;
    setCode('');
    if (answer.token !== null) token.keep(answer.token);
    setSaid(answer.token !== null ? done : answer.waitMs > 0 ? wait(Math.ceil(answer.waitMs / 1000)) : wrong);
  };
  return (
    <SheetFrame title={title} teach={said}>
      {may ? null : (
        <>
          <label className={styles['code']}>
            {label}
            <input
              value={code}
              onChange={(event) => setCode(event.target.value.toUpperCase())}
              autoCapitalize="characters"
              autoComplete="off"
              spellCheck={false}
              maxLength={12}
            />
          </label>
          <Press name={open} onTap={code === '' ? undefined : () => void enter()} loud={code !== ''} />
        </>
      )}
    </SheetFrame>
  );
}
