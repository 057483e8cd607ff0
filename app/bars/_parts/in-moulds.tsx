'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { useState } from 'react';
import type { BarsRow } from '#lib/protocol/bars';
import type { HttpProblem } from '#lib/protocol/http';
import type { Display } from '#lib/units/display';
import { temperatureText } from '#lib/units/format';
import { shortMoment } from '#lib/words/times';
import type { UnmouldState } from '#lib/work/bars/index';
import { hoursSince } from '#lib/work/bars/due';
import { windowOf } from '#lib/work/bars/unmould';
import type { UnmouldWindow } from '#lib/work/bars/unmould';
import { useDisplay } from '../../_live/use';
import { barsApi } from '../../_ui/bars-api';
import { on } from '../../_ui/classes';
import type { BarsThere } from '../../_ui/cure/use-bars';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { useNow } from '../../_ui/use-now';
import { messages } from '../messages';
import { conditionWords } from '../messages-unmould';
import { Conditions, NO_ROOM, roomOf } from './conditions';
import { Latest } from './latest';
import { problemOf } from './say';
import { lotHref } from './stage';
import { WindowBar } from './window-bar';

export const windowFor = (row: BarsRow, { all, unmould }: BarsThere): UnmouldWindow =>
  windowOf(row, all, unmould.get(row.formula.id) ?? null);

/** Its window is open, and nobody has put it in the freezer. */
export const isDue = (row: BarsRow, there: BarsThere, now: number | null): boolean =>
  now !== null && row.unmould?.state !== 'freezer' && hoursSince(row.poured, now) >= windowFor(row, there).from;

interface Props {
  readonly rows: readonly BarsRow[];
  readonly there: BarsThere;
  readonly onSaid: () => void;
}

/** Logs that stand in their moulds, with the hours in which they are expected to come out. */
export function InMoulds({ rows, there, onSaid }: Props) {
  const { moulds } = messages;
  return (
    <PaperSection name={moulds.title} note={<p>{moulds.note}</p>}>
      {rows.map((row) => (
        <Standing key={row.id} row={row} there={there} onSaid={onSaid} />
      ))}
    </PaperSection>
  );
}

/** What the hours go by, in a sentence. */
export const windowWords = ({ by, from, to, clean, slow }: UnmouldWindow, display: Display): string => {
  const { window: words } = messages.moulds;
  const degrees = (value: number): string => temperatureText(value, display, 0);
  const room = clean?.room ?? null;
  const first =
    by === 'answers' && clean !== null
      ? words.answers(clean.lots, clean.least, clean.most)
      : by === 'said'
        ? words.said(from, to)
        : words.practice(from, to);
  const rooms = room === null ? [] : [conditionWords.rooms(room.lots, clean?.lots ?? 0, degrees(room.least), degrees(room.most))];
  return [first, ...rooms, ...(slow ? [words.slow] : [])].join(' ');
};

function Standing({ row, there, onSaid }: { readonly row: BarsRow; readonly there: BarsThere; readonly onSaid: () => void }) {
  const now = useNow();
  const display = useDisplay();
  const { locale } = display;
  const window = windowFor(row, there);
  const { moulds } = messages;
  const zone = { offsetMin: null, locale };
  return (
    <div className={on('gap')} data-lot={row.id}>
      <h3>
        <Link href={lotHref(row.id) as Route} prefetch={false}>
          {row.formula.name}
        </Link>{' '}
        <span className={on('mark')}>{row.mark}</span>
      </h3>
      <p>
        {moulds.poured(shortMoment(row.poured, zone))}.{' '}
        {row.unmould === null ? null : `${moulds.since(moulds.state[row.unmould.state], shortMoment(row.unmould.wall, zone))}.`}{' '}
        {windowWords(window, display)}
      </p>
      {now === null ? null : <WindowBar window={window} hours={hoursSince(row.poured, now)} />}
      <Latest row={row} there={there} />
      <Answers row={row} onSaid={onSaid} />
    </div>
  );
}

const LESS_OFTEN: readonly UnmouldState[] = ['too-soft', 'stuck', 'torn', 'freezer'];

/** Out or not yet is one tap; the others stand behind one more. */
export function Answers({ row, onSaid }: { readonly row: BarsRow; readonly onSaid: () => void }) {
  const [more, setMore] = useState(false);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const [room, setRoom] = useState(NO_ROOM);
  const { temperature } = useDisplay();
  const { moulds } = messages;
  const say = async (state: UnmouldState): Promise<void> => {
    setBusy(true);
    setProblem(problemOf(await barsApi.want(row.id, row.version, { kind: 'note-unmould', state, note: '', ...roomOf(room, temperature) })));
    setBusy(false);
    setMore(false);
    setRoom(NO_ROOM);
    onSaid();
  };
  const act = (state: UnmouldState, words: string, first = false) => (
    <button key={state} type="button" className={on(first ? 'act first' : 'act')} disabled={busy} onClick={() => void say(state)}>
      {words}
    </button>
  );
  return (
    <>
      <div className={on('acts')}>
        {act('out', moulds.acts.out, true)}
        {act('not-yet', moulds.acts['not-yet'])}
        {more ? (
          LESS_OFTEN.map((state) => act(state, moulds.state[state]))
        ) : (
          <button type="button" className={on('link')} onClick={() => setMore(true)}>
            {moulds.more}
          </button>
        )}
      </div>
      <Conditions id={row.id} typed={room} onTyped={setRoom} />
      {problem === null ? null : <Problem problem={problem} />}
    </>
  );
}
