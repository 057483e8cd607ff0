'use client';
import { useState } from 'react';
import { TextField } from '../../../_ui/fields';
import { afterwardsMessages as words } from '../messages-afterwards';
import { SaidForm } from './said-form';
import type { SaidProps } from './said-form';
import { on } from './classes';

export function NoteForm(props: SaidProps) {
  const [text, setText] = useState('');
  const [tried, setTried] = useState(false);
  const [deviation, setDeviation] = useState(false);
  const missing = text.trim() === '';
  const want = async () => {
    setTried(true);
    return missing ? null : ({ kind: 'note', text: text.trim(), ...(deviation ? { deviation } : {}) } as const);
  };
  return (
    <SaidForm {...props} want={want}>
      <div className={on('whole')}>
        <TextField id="note" label={words.noteText} value={text} error={tried && missing ? words.missing : ''} onChange={setText} />
      </div>
      <p className={on('whole')}>
        <label>
          <input type="checkbox" checked={deviation} onChange={(event) => setDeviation(event.target.checked)} /> {words.noteDeviation}
        </label>
      </p>
    </SaidForm>
  );
}
