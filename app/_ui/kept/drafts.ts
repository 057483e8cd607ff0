import { useEffect, useState } from 'react';
import type { Noun } from '#lib/work/shelf/shelf';
import { heldOf } from '../held';
import type { Draft } from './kind';

/** A form begun on this screen, as it was held; `null` for what is none. */
const draftIn = (value: unknown): Draft | null => {
  const { id, typed, base, tried } = value as Draft;
  const sound = typeof id === 'string' && Number.isSafeInteger(base) && typeof typed === 'object' && typed !== null;
  return sound && Object.values(typed).every((text) => typeof text === 'string') ? { id, typed, base, tried } : null;
};

/** Forms begun and not kept yet, by the document's id; what is new has none. A page closed or a machine gone loses nothing. */
export interface Drafts {
  readonly all: Readonly<Record<string, Draft>>;
  readonly write: (key: string, change: (before: Draft | undefined) => Draft) => void;
  readonly drop: (key: string) => void;
}

export const useDrafts = (noun: Noun): Drafts => {
  const [held] = useState(() => heldOf<Draft>(`potwatch.kept.${noun}.`, draftIn));
  const [all, setAll] = useState<Readonly<Record<string, Draft>>>(() => Object.fromEntries(held.all()));
  useEffect(() => {
    for (const [key, draft] of Object.entries(all)) held.write(key, draft);
  }, [all, held]);
  return {
    all,
    write: (key, change) => setAll((before) => ({ ...before, [key]: change(before[key]) })),
    drop(key) {
      held.drop(key);
      setAll((before) => Object.fromEntries(Object.entries(before).filter(([one]) => one !== key)));
    },
  };
};
