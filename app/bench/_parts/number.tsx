'use client';
import type { CSSProperties } from 'react';
import { differenceFigure, figure, figureText, massFigure } from '#lib/units/format';
import type { Figure } from '#lib/units/format';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { messages } from '../messages';
import styles from '../bench.module.css';
import { roomFor, slotsOf } from './figure-slots';
import { useSeen } from './seen';
import { isPoured } from './words';

/** The one number, or the words that stand where no number may. */
export function TheNumber() {
  const { kind } = useSeen();
  return (
    <div className={styles['numberCell']} data-kind={kind}>
      {kind === 'left' || kind === 'planned' ? <Left planned={kind === 'planned'} /> : null}
      {kind === 'recorded' ? <Recorded /> : null}
      {kind === 'changed' ? <Changed /> : null}
      {kind === 'gross' ? <Gross /> : null}
      {kind === 'apart' ? <Apart /> : null}
      {kind === 'since' ? <Since /> : null}
      {kind === 'words' ? <Words /> : null}
    </div>
  );
}

/** How much is left; before the zero is taken, how much the plan wants, which no instrument measured. */
function Left({ planned }: { readonly planned: boolean }) {
  const display = useDisplay();
  const left = useLive(see.left);
  const division = useLive(see.division);
  const target = useLive(see.target) ?? 0;
  const line = useLive(see.line);
  if (line === null) return null;
  const value = planned ? target - line.actual : (left ?? 0);
  const over = value < 0;
  const room = roomFor(massFigure(target * 1.25, display, division, 'none'));
  const { toPour, toAdd, left: leftWord, over: overWord, spoken } = messages.number;
  const shown = massFigure(-value, display, division, over ? 'both' : 'none');
  const words = planned ? (isPoured(line.plan.material.class) ? toPour : toAdd) : over ? overWord : leftWord;
  const bare = figureText({ ...shown, sign: '' });
  return <Slotted shown={shown} room={room} word={words} label={over ? spoken.over(bare) : spoken.left(bare)} />;
}

/** After a restart: what the record says is in the vessel, to be compared with what is. */
function Recorded() {
  const display = useDisplay();
  const vessel = useLive(see.vessel);
  const division = useLive(see.division);
  const shown = massFigure(vessel?.contents ?? 0, display, division);
  return <Slotted shown={shown} room={3} word={messages.number.recorded} label={messages.number.spoken.recorded(figureText(shown))} />;
}

/** By how much an accepted weight has changed since. */
function Changed() {
  const display = useDisplay();
  const division = useLive(see.division);
  const change = useLive(({ batch }) => (batch?.question == null ? null : batch.question.now - batch.question.was));
  if (change === null) return <Words />;
  const shown = massFigure(change, display, division, 'both');
  const word = change < 0 ? messages.number.less : messages.number.more;
  return <Slotted shown={shown} room={3} word={word} label={messages.number.spoken.changed(figureText(shown))} />;
}

function Gross() {
  const display = useDisplay();
  const scale = useLive(see.scale);
  if (scale === null) return <Words />;
  if (scale.gross === null) return <Words />;
  const shown = massFigure(scale.gross, display, scale.division);
  return <Slotted shown={shown} room={4} word="" label={messages.number.spoken.onScale(figureText(shown))} />;
}

/** How far apart lye and oils are now. */
export function Apart() {
  const display = useDisplay();
  const apart = useLive(see.joining)?.apart ?? null;
  const lye = useLive(see.lye)?.value ?? null;
  const oils = useLive(see.oils)?.value ?? null;
  const value = apart ?? (lye === null || oils === null ? null : Math.abs(lye - oils));
  if (value === null) return <Words />;
  const shown = differenceFigure(value, display);
  return <Slotted shown={shown} room={3} word={messages.number.apart} label={messages.number.spoken.apart(figureText(shown))} />;
}

/** Minutes since joining, on the server's clock; after a restart that clock began anew and the minutes are not known. */
function Since() {
  const display = useDisplay();
  const minutes = useLive(({ batch, frame }) => {
    if (batch?.joined == null || frame === null || batch.joined.boot !== frame.boot) return null;
    return Math.floor((frame.at - batch.joined.mono) / 60_000);
  });
  if (minutes === null) return null;
  const shown = figure(minutes, 0, 'min', display.locale);
  return <Slotted shown={shown} room={3} word="" label={messages.number.spoken.since(figureText(shown))} />;
}

interface SlottedProps {
  readonly shown: Figure;
  readonly room: number;
  readonly word: string;
  readonly label: string;
}

function Slotted({ shown, room, word, label }: SlottedProps) {
  const { whole, mark, part, size, wholeWidth } = slotsOf(shown, room);
  const unit = shown.rest === null ? shown.unit : `${shown.unit} + ${shown.rest.unit}`;
  return (
    <div
      key={`${size} ${wholeWidth} ${part.length} ${unit} ${word}`}
      className={styles['number']}
      data-figure={figureText(shown)}
      style={{ '--size': size, '--whole': wholeWidth } as CSSProperties}
    >
      <span className="unseen">{label}</span>
      <span className={styles['figure']} aria-hidden="true">
        <Places texts={whole} />
        <span className={styles['part']}>
          {mark === '' ? null : <span className={styles['mark']}>{mark}</span>}
          <Places texts={part} />
        </span>
      </span>
      <span className={styles['unit']} aria-hidden="true">
        {unit} <b>{word}</b>
      </span>
    </div>
  );
}

// A place is its position: digits come and go in it.
function Places({ texts }: { readonly texts: readonly string[] }) {
  return texts.map((text, place) => (
    // oxlint-disable-next-line react/no-array-index-key
    <span key={place} className={styles['slot']}>
      {text}
    </span>
  ));
}

/** No fresh number stands: hatched, with the reason in words. */
function Words() {
  const { phase, block } = useSeen();
  const link = useLive(see.link);
  const stale = useLive(see.stale);
  const outdated = useLive(see.outdated);
  const words = ((): string => {
    if (outdated) return messages.offline.outdated.big;
    if (link === 'connecting') return messages.offline.connecting.big;
    if (link === 'down' || stale) return messages.offline.down.big;
    if (phase === 'away') return messages.number.away;
    return block === null ? messages.blocks.lost.big : messages.blocks[block].big;
  })();
  return (
    <div className={styles['none']} data-none={words}>
      <span>{words}</span>
    </div>
  );
}
