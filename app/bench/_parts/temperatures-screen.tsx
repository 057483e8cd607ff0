'use client';
import dynamic from 'next/dynamic';
import { useRouter } from 'next/navigation';
import { useMemo } from 'react';
import { differenceText } from '#lib/units/format';
import { see } from '../../_live/selectors';
import { useAwakeScreen, useConnection, useDisplay, useLive } from '../../_live/use';
import { Press } from '../../_ui/press';
import { useFaces } from '../../_ui/use-faces';
import { useFrame } from '../../_ui/frame';
import { messages } from '../messages';
import { temperatureMessages } from '../messages-temperatures';
import styles from '../bench.module.css';
import { COMMON } from './common';
import { SoundPress, Temperature } from './hands';
import { Hatch } from './hatch';
import { Window } from './heading';
import { screenLabel } from './label';
import { Apart } from './number';
import { useSeen } from './seen';
import { Temperatures } from './temperatures';
import { Strip } from './strip';
import { ProbesTruth } from './truth';
import { swallowing } from './use-hands';
import { Notice } from './notice';
import { Alarm, Voice } from './voice';

const Curves = dynamic(() => import('../../_charts/curves').then((part) => part.Curves), { ssr: false });

/** Lye and oils by themselves: how far apart, where in the window, and the way they came. */
export function TemperaturesScreen() {
  const label = useMemo(() => screenLabel(), []);
  useConnection(label);
  useAwakeScreen();
  const frame = useFrame();
  const faces = useFaces();
  const router = useRouter();
  const phase = useLive(see.phase);
  const { offline } = useSeen();
  const lye = useLive(see.lye)?.value ?? null;
  const oils = useLive(see.oils)?.value ?? null;
  const window = useLive(({ batch }) => batch?.plan.joining.window ?? null) ?? COMMON.window;
  const words = temperatureMessages;
  const known = lye !== null && oils !== null;
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
      <h1 className={styles['name']}>{offline ? messages.offline.down.title : messages.phases.joining.title}</h1>
      <div className={styles['which']}>
        <Window />
      </div>
      <div className={styles['numberCell']}>
        <Apart />
      </div>
      <div className={styles['meaning']}>
        <Place word={messages.temperatures.lye} value={lye} window={window} />
        <Place word={messages.temperatures.oils} value={oils} window={window} />
      </div>
      <div className={styles['side']}>
        <div className={styles['drawing']}>
          <Temperatures frame={frame} />
        </div>
        <div className={styles['truth']}>
          <ProbesTruth />
        </div>
      </div>
      <div className={styles['work']}>
        <Curves window={window} words={messages.temperatures} label={words.curves} ago={words.ago} />
      </div>
      <div className={styles['hands']}>
        <Press className={styles['back']} name={messages.press.back} sub={messages.title} onTap={() => router.push('/bench')} />
        <SoundPress />
        <Temperature use="lye" />
        <Temperature use="oils" />
      </div>
      <Strip />
      <Alarm />
      <Notice />
      <Voice />
    </main>
  );
}

/** Where one of the two stands against the window, in words. */
function Place({
  word,
  value,
  window,
}: {
  readonly word: string;
  readonly value: number | null;
  readonly window: { readonly low: number; readonly high: number };
}) {
  const display = useDisplay();
  const { inWindow, above, below } = temperatureMessages;
  const where =
    value === null
      ? messages.scale.lost
      : value > window.high
        ? above(differenceText(value - window.high, display))
        : value < window.low
          ? below(differenceText(window.low - value, display))
          : inWindow;
  return (
    <span className={styles['fact']}>
      {word} {where}
    </span>
  );
}
