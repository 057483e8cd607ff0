'use client';
import type { EntryId } from '#lib/units/id';
import { on } from '../../_ui/classes';
import type { Wanting } from './use-want';

interface Props {
  /** The newest that stands; nothing to cross out without it. */
  readonly last: { readonly entry: EntryId } | undefined;
  readonly wanting: Wanting;
  readonly words: string;
}

/** Crosses out the newest of its kind as mistyped; both show for ever. */
export function CrossLast({ last, wanting, words }: Props) {
  if (last === undefined) return null;
  const cross = () => wanting.want({ kind: 'correct', entry: last.entry, reason: 'mistyped', note: '' });
  return (
    <button type="button" className={on('link')} disabled={wanting.busy} onClick={() => void cross()}>
      {words}
    </button>
  );
}
