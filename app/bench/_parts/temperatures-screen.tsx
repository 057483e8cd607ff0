'use client';
import dynamic from 'next/dynamic';
import { useRouter } from 'next/navigation';
import { useMemo, useState } from 'react';
import type { CSSProperties } from 'react';
import { differenceText } from '#lib/units/format';
import { see } from '../../_live/selectors';
import { live, useAwakeScreen, useConnection, useDisplay, useLive } from '../../_live/use';
import { Press } from '../../_ui/press';
import { useFaces } from '../../_ui/use-faces';
import { useFrame } from '../../_ui/frame';
import { messages } from '../messages';
import { temperatureMessages } from '../messages-temperatures';
import styles from '../bench.module.css';
import { COMMON } from './common';
import { headline, placeText } from './expected';
import { ExpectedRows } from './expected-rows';
import { FirstAid } from './first-aid';
import { FirstAidPress, SoundPress } from './hands';
import { Hatch } from './hatch';
import { Window } from './heading';
import { screenLabel } from './label';
import { useLateParts } from './late';
import { ProbeSheet } from './probe-sheet';
import { useSeen } from './seen';
import { Temperature } from './temperature';
import { Temperatures } from './temperatures';
import { Strip } from './strip';
import { ProbesTruth } from './truth';
import { useKeptFocus } from './use-focus';
import { swallowing } from './use-hands';
import { Notice } from './notice';
import { Alarm, Voice } from './voice';

const Curves = dynamic(() => import('../../_charts/curves').then((part) => part.Curves), { ssr: false });

/** Lye and oils by themselves: the way they came and where they are going, when they meet, and what would bring them together. */
export function TemperaturesScreen() {
  const label = useMemo(() => screenLabel(), []);
  useConnection(label);
  useAwakeScreen();
  useLateParts();
  useKeptFocus();
  const frame = useFrame();
  const faces = useFaces();
  const router = useRouter();
  const [sheet, setSheet] = useState<'lye' | 'oils' | 'first-aid' | null>(null);
  const close = (): void => setSheet(null);
  const phase = useLive(see.phase);
  const window = useLive(({ batch }) => batch?.plan.joining.window ?? null) ?? COMMON.window;
  const words = temperatureMessages;
  const known = useLive((state) => see.lye(state)?.value != null && see.oils(state)?.value != null);
  return (
    <main
      data-light="bench"
      className={styles['bench']}
      data-shape={known ? 'bare' : 'lost'}
      data-phase={phase ?? 'none'}
      data-faces={faces}
      data-page=""
      aria-label={words.title}
      {...swallowing}
    >
      <Hatch />
      <Meet />
      <div className={styles['which']}>
        <Window />
      </div>
      <div className={styles['numberCell']}>
        <Curves window={window} words={messages.temperatures} label={words.curves} ago={words.ago} />
      </div>
      <Where window={window} />
      <div className={styles['side']}>
        <div className={styles['drawing']}>
          <Temperatures frame={frame === 'phone' ? 'page' : frame} />
        </div>
        <div className={styles['truth']}>
          <ProbesTruth />
        </div>
      </div>
      <div className={styles['work']}>
        <ExpectedRows frame={frame} />
      </div>
      {sheet === null ? null : sheet === 'first-aid' ? <FirstAid /> : <ProbeSheet key={sheet} use={sheet} />}
      <div className={styles['hands']}>
        {sheet === null ? (
          <Press name={messages.press.back} sub={messages.title} onTap={() => router.push('/bench')} />
        ) : (
          <Press name={messages.press.close} onTap={close} loud />
        )}
        <SoundPress />
        <Temperature use="lye" onOpen={() => setSheet('lye')} />
        <Temperature use="oils" onOpen={() => setSheet('oils')} />
        <FirstAidPress onTap={() => setSheet('first-aid')} />
        <MovedPress vessel="lye" />
        <MovedPress vessel="oils" />
      </div>
      <Strip />
      <Alarm />
      <Notice />
      <Voice />
    </main>
  );
}

/** When they meet: the largest words of this screen. */
function Meet() {
  const { offline } = useSeen();
  const meeting = useLive((state) => see.forecast(state)?.meeting ?? null);
  const when = meeting?.kind === 'meeting' ? meeting.when : null;
  const joinable = useLive(({ frame }) => frame?.cue.phase === 'joining' && frame.cue.joining?.holds.length === 0);
  // The rule that lets them be joined needs no forecast; with one of the probes in doubt nothing is said of a meeting.
  const met = joinable && meeting?.kind === 'none' && [meeting.lye, meeting.oils].every((why) => why === null || why === 'not-yet');
  const text = offline ? messages.offline.down.title : met ? temperatureMessages.meet.met : headline(meeting);
  return (
    <h1
      key={text}
      className={styles['name']}
      data-meet={when?.kind ?? 'none'}
      data-low={when?.kind === 'in' ? when.low : when?.kind === 'not-before' ? when.after : undefined}
      data-high={when?.kind === 'in' ? when.high : undefined}
      style={{ '--fit': Math.min(1, 17 / text.length) } as CSSProperties}
    >
      {text}
    </h1>
  );
}

/** How it cooled before says nothing of how it will: sooner said than noticed. */
function MovedPress({ vessel }: { readonly vessel: 'lye' | 'oils' }) {
  const { offline } = useSeen();
  const may = useLive((state) => see.mine(state) && see.batch(state) !== null && see[vessel](state)?.value != null);
  const { vessels, moved } = temperatureMessages;
  const say = (): void => void live().intend({ kind: 'moved', vessel });
  return <Press name={vessels[vessel]} sub={moved} onTap={may && !offline ? say : undefined} data={{ 'data-moved': vessel }} />;
}

/** How far apart the two are, and where each stands against the window. */
function Where({ window }: { readonly window: { readonly low: number; readonly high: number } }) {
  const display = useDisplay();
  const lye = useLive(see.lye)?.value ?? null;
  const oils = useLive(see.oils)?.value ?? null;
  const apart = lye === null || oils === null ? '' : temperatureMessages.apart(differenceText(Math.abs(lye - oils), display));
  const place = (use: 'lye' | 'oils', value: number | null): string =>
    value === null ? `${temperatureMessages.vessels[use]} ${messages.scale.lost}` : placeText(use, value, window, display);
  return (
    <div className={styles['meaning']} style={{ '--long': 24 } as CSSProperties}>
      <b>{apart}</b>
      <span className={styles['fact']}>{place('lye', lye)}</span>
      <span className={styles['fact']}>{place('oils', oils)}</span>
    </div>
  );
}
