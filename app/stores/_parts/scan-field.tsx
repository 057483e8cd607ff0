'use client';
import { useState } from 'react';
import { TextField } from '../../_ui/fields';
import type { Typed } from '../../_ui/kept/typed';
import { lotMessages as words } from '../messages-lots';
import { fromScan } from './received-form';

/** A reader of barcodes types into this field and ends with Enter; what the label says goes into the form's own fields. */
export function ScanField({ onTyped }: { readonly onTyped: (change: Typed) => void }) {
  const [text, setText] = useState('');
  const [said, setSaid] = useState('');
  const take = (): void => {
    if (text === '') return;
    const read = fromScan(text, Date.now());
    setSaid(read === null ? words.notScanned : words.scanned);
    if (read === null) return;
    onTyped(read);
    setText('');
  };
  return (
    <>
      <TextField id="lot-scan" label={words.scan} hint={words.scanHint} value={text} onChange={setText} onEnter={take} />
      <output>{said}</output>
    </>
  );
}
