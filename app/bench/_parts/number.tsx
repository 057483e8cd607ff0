'use client';
import { useMemo } from 'react';
import type { CSSProperties } from 'react';
import { useShallow } from 'zustand/react/shallow';
import { see } from '../../_live/selectors';
import { onLive } from '../../_live/start';
import type { LiveState } from '../../_live/store';
import { useDisplay, useLive } from '../../_live/use';
import { useLiveWriting, writeText } from '../../_ui/live-text';
import { messages } from '../messages';
import styles from '../bench.module.css';
import { slotsOf } from './figure-slots';
import type { Slots } from './figure-slots';
import {
  shownApart,
  shownChanged,
  shownGross,
  shownLeft,
  shownOut,
  shownPlanned,
  shownPortion,
  shownRecorded,
  shownSince,
} from './number-shown';
import type { Show, Shown } from './number-shown';
import { useSeen } from './seen';

/** The one number, or the words that stand where no number may. */
export function TheNumber() {
  const { kind } = useSeen();
  return (
    <div className={styles['numberCell']} data-kind={kind}>
      {kind === 'left' ? <Digits key={kind} show={shownLeft} /> : null}
      {kind === 'planned' ? <Digits key={kind} show={shownPlanned} /> : null}
      {kind === 'recorded' ? <Digits key={kind} show={shownRecorded} /> : null}
      {kind === 'changed' ? <Digits key={kind} show={shownChanged} orWords /> : null}
      {kind === 'gross' ? <Digits key={kind} show={shownGross} orWords /> : null}
      {kind === 'apart' ? <Apart /> : null}
      {kind === 'portion' ? <Digits key={kind} show={shownPortion} /> : null}
      {kind === 'out' ? <Digits key={kind} show={shownOut} orWords /> : null}
      {kind === 'since' ? <Digits key={kind} show={shownSince} /> : null}
      {kind === 'words' ? <Words /> : null}
    </div>
  );
}

/** How far apart lye and oils are now. */
export const Apart = () => <Digits show={shownApart} orWords />;

/** What is drawn of a number; its digits are written into it with each reading. */
interface Layout {
  readonly places: number;
  readonly parts: number;
  readonly mark: string;
  readonly size: number;
  readonly wholeWidth: number;
  readonly unit: string;
  readonly word: string;
}

type Placed = Shown & { readonly slots: Slots };

/** Looks at one state once, however many ask. */
const once = (look: (state: LiveState) => Placed | null): ((state: LiveState) => Placed | null) => {
  let seen: { readonly state: LiveState; readonly placed: Placed | null } | null = null;
  return (state) => {
    if (seen?.state !== state) seen = { state, placed: look(state) };
    return seen.placed;
  };
};

const layoutOf = (placed: Placed | null): Layout | null => {
  if (placed === null) return null;
  const { figure, word, slots } = placed;
  const { whole, part, mark, size, wholeWidth } = slots;
  const unit = figure.rest === null ? figure.unit : `${figure.unit} + ${figure.rest.unit}`;
  return { places: whole.length, parts: part.length, mark, size, wholeWidth, unit, word };
};

/** A number whose places stand still. */
export function Digits({ show, orWords = false }: { readonly show: Show; readonly orWords?: boolean }) {
  const display = useDisplay();
  const place = useMemo(
    () =>
      once((state) => {
        const shown = show(state, display);
        return shown === null ? null : { ...shown, slots: slotsOf(shown.figure, shown.room) };
      }),
    [show, display],
  );
  const layout = useLive(useShallow((state) => layoutOf(place(state))));
  if (layout === null) return orWords ? <Words /> : null;
  return <Slotted key={Object.values(layout).join(' ')} layout={layout} place={place} />;
}

function Slotted({ layout, place }: { readonly layout: Layout; readonly place: (state: LiveState) => Placed | null }) {
  const { places, parts, mark, size, wholeWidth, unit, word } = layout;
  const digits = useLiveWriting<HTMLSpanElement>((figure, state) => {
    const slots = place(state)?.slots;
    // Another layout is drawn anew in a moment.
    if (slots === undefined || slots.whole.length !== places || slots.part.length !== parts) return;
    const cells = figure.querySelectorAll('[data-slot]');
    for (const [at, text] of [...slots.whole, ...slots.part].entries()) {
      const cell = cells[at];
      if (cell !== undefined) writeText(cell, text);
    }
  }, onLive);
  const label = useLiveWriting<HTMLSpanElement>((spoken, state) => writeText(spoken, place(state)?.label ?? ''));
  return (
    <div className={styles['number']} data-figure="" style={{ '--size': size, '--whole': wholeWidth } as CSSProperties}>
      <span ref={label} className="unseen" />
      <span ref={digits} className={styles['figure']} aria-hidden="true">
        <Places count={places} />
        <span className={styles['part']}>
          {mark === '' ? null : <span className={styles['mark']}>{mark}</span>}
          <Places count={parts} />
        </span>
      </span>
      <span className={styles['unit']} aria-hidden="true">
        {unit} <b>{word}</b>
      </span>
    </div>
  );
}

// A place is its position: digits come and go in it.
function Places({ count }: { readonly count: number }) {
  // oxlint-disable-next-line react/no-array-index-key
  return Array.from({ length: count }, (_, place) => <span key={place} className={styles['slot']} data-slot="" />);
}

/** No fresh number stands: hatched, with the reason in words. */
function Words() {
  const { phase, block, kind } = useSeen();
  const link = useLive(see.link);
  const stale = useLive(see.stale);
  const outdated = useLive(see.outdated);
  const words = ((): string => {
    if (outdated) return messages.offline.outdated.big;
    if (link === 'connecting') return messages.offline.connecting.big;
    if (link === 'down' || stale) return messages.offline.down.big;
    if (phase === 'away') return messages.number.away;
    if (kind === 'apart') return messages.number.unknown;
    return block === null ? messages.blocks.lost.big : messages.blocks[block].big;
  })();
  return (
    <div className={styles['none']} data-none={words}>
      <span>{words}</span>
    </div>
  );
}
