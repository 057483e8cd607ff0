import { Fragment } from 'react';
import { on } from './classes';

/** Unicode's control pictures, which few faces have, by the names ASCII gives the bytes. */
const NAMES =
  'NUL SOH STX ETX EOT ENQ ACK BEL BS HT LF VT FF CR SO SI DLE DC1 DC2 DC3 DC4 NAK SYN ETB CAN EM SUB ESC FS GS RS US SP DEL'.split(' ');
const FIRST = 0x24_00;
const PICTURE = /([\u2400-\u2421])/u;

/** Bytes as text, in the figure face. */
export function Bytes({ text }: { readonly text: string }) {
  return (
    <span className={on('bytes')}>
      {text.split(PICTURE).map((part, at) => {
        // Every other part is a picture, by the way a split with a group works.
        const key = at;
        return at % 2 === 1 ? <i key={key}>{NAMES[(part.codePointAt(0) ?? FIRST) - FIRST]}</i> : <Fragment key={key}>{part}</Fragment>;
      })}
    </span>
  );
}
