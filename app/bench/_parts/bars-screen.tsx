'use client';
import type { Route } from 'next';
import { useSearchParams } from 'next/navigation';
import { useMemo, useState } from 'react';
import type { CSSProperties } from 'react';
import { useAwakeScreen, useConnection, useLive } from '../../_live/use';
import { Boundary } from '../../_ui/boundary';
import { HoldHint } from '../../_ui/press';
import { useFaces } from '../../_ui/use-faces';
import { barsMessages } from '../messages-bars';
import { messages } from '../messages';
import styles from '../bench.module.css';
import { BarsHands, usePressBars } from './bars-hands';
import { BarsMeaning, BarsSide } from './bars-side';
import { BarsVoice } from './bars-voice';
import { BarsWork } from './bars-work';
import { barName, barsCue, shownBar } from './bars-shown';
import { FirstAid } from './first-aid';
import { Hatch } from './hatch';
import { screenLabel } from './label';
import { LocalVoice } from './local-voice';
import { Notice } from './notice';
import { Digits } from './number';
import { useSeen } from './seen';
import { Strip } from './strip';
import { useKeptFocus } from './use-focus';
import { swallowing, useKeys } from './use-hands';
import { Alarm } from './voice';

/** mg of the known mass an address asks for; `null`: none. */
const knownIn = (text: string | null): number | null => {
  const known = Number(text ?? '');
  return Number.isSafeInteger(known) && known > 0 ? known : null;
};

const lotHref = (id: string): Route => `/bars/lot?id=${encodeURIComponent(id)}` as Route;
const netHref = (id: string): Route => `/bars/net?id=${encodeURIComponent(id)}` as Route;

/** Shapes that say what stands before a word is read: brackets when it is within, an octagon when a person is asked, hatched without a weight. */
const SHAPES: Readonly<Record<string, string>> = { offer: 'within', taken: 'within', ask: 'held', changed: 'held', 'no-weight': 'lost' };

/** Bars of one lot, hands-free: put on, settled, next. */
export function BarsScreen() {
  const label = useMemo(() => screenLabel(), []);
  const asked = useSearchParams();
  const id = asked.get('id') ?? '';
  const known = knownIn(asked.get('known'));
  useConnection(label);
  useAwakeScreen();
  const leave = known === null ? lotHref(id) : netHref(id);
  useKeys(usePressBars(leave));
  useKeptFocus();
  const faces = useFaces();
  const [aid, setAid] = useState(false);
  const phase = useLive((state) => barsCue(state)?.phase ?? 'none');
  const shape = SHAPES[phase] ?? 'bare';
  return (
    <main
      data-light="bench"
      className={styles['bench']}
      data-shape={shape}
      data-phase={`bars-${phase}`}
      data-faces={faces}
      data-page=""
      aria-label={barsMessages.title}
      {...swallowing}
    >
      <Hatch />
      <div key={shape} className={styles['plate']} aria-hidden="true" />
      <Boundary fallback={<h1 className={styles['name']}>{messages.broken.title}</h1>}>
        <Name />
        <Which />
        <div className={styles['numberCell']}>
          <Digits show={shownBar} />
        </div>
        <BarsMeaning />
        <BarsSide />
        <div className={styles['work']} tabIndex={-1}>
          <BarsWork id={id} known={known} />
        </div>
      </Boundary>
      {aid ? <FirstAid /> : null}
      <BarsHands leave={leave} aid={aid} onAid={() => setAid(!aid)} />
      <Strip />
      <Alarm />
      <Notice />
      <BarsVoice />
      <LocalVoice />
      <HoldHint text={messages.press.hint} />
    </main>
  );
}

/** What to put on, or what lies there. */
function Name() {
  const { offline } = useSeen();
  const text = useLive((state) => {
    const cue = barsCue(state);
    if (cue === null) return barsMessages.choose;
    return barsMessages.phases[cue.phase].name(barName(cue));
  });
  const words = offline ? messages.offline.down.title : text;
  return (
    <h1 key={words} className={styles['name']} style={{ '--fit': Math.min(1, 17 / words.length) } as CSSProperties}>
      {words}
    </h1>
  );
}

/** Both lines stand above the brackets on a phone. */
const CLOSE = { gap: '0.1rem', lineHeight: 1.05 };

function Which() {
  const mark = useLive((state) => barsCue(state)?.mark ?? '');
  const name = useLive((state) => barsCue(state)?.name ?? '');
  const place = useLive((state) => {
    const cue = barsCue(state);
    return cue === null ? '' : barsMessages.place(cue.done, cue.of);
  });
  return (
    <div className={styles['which']} style={CLOSE}>
      <span className={styles['where']}>{name}</span>
      <span className={styles['place']}>
        <span className={styles['lot']}>{mark}</span> {place}
      </span>
    </div>
  );
}
