'use client';
import { useMemo } from 'react';
import { useAwakeScreen, useConnection, useTones } from '../../_live/use';
import { useFaces } from '../../_ui/use-faces';
import { useFrame } from '../../_ui/frame';
import { Boundary } from '../../_ui/boundary';
import { HoldHint, Press } from '../../_ui/press';
import { messages } from '../messages';
import styles from '../bench.module.css';
import { Hands } from './hands';
import { Hatch } from './hatch';
import { Heading, Which } from './heading';
import { screenLabel } from './label';
import { LateNotice, useLateParts } from './late';
import { LocalVoice } from './local-voice';
import { Meaning } from './meaning';
import { TheNumber } from './number';
import { useSeen } from './seen';
import { Sheets } from './sheets';
import { Side } from './side';
import { Strip } from './strip';
import { useKeptFocus } from './use-focus';
import { swallowing, useKeys } from './use-hands';
import { Alarm, Voice } from './voice';
import { WorkRoom } from './work';

/** The bench: one grid for every state. A state may change what a cell holds, never where a cell is. */
export function BenchScreen() {
  const label = useMemo(() => screenLabel(), []);
  useConnection(label);
  useAwakeScreen();
  useTones();
  useKeys();
  useKeptFocus();
  useLateParts();
  const frame = useFrame();
  const faces = useFaces();
  const { shape, phase } = useSeen();
  return (
    <main
      data-light="bench"
      className={styles['bench']}
      data-shape={shape}
      data-phase={phase ?? 'none'}
      data-faces={faces}
      aria-label={messages.title}
      {...swallowing}
    >
      <Hatch />
      <div key={shape} className={styles['plate']} aria-hidden="true" />
      <Boundary fallback={<Broken />}>
        <Heading />
        <Which />
        <TheNumber />
        <Meaning />
        <Side frame={frame} />
        <WorkRoom frame={frame} />
        <Sheets />
      </Boundary>
      <Hands />
      <Strip />
      <Alarm />
      <LateNotice />
      <Voice />
      <LocalVoice />
      <HoldHint text={messages.press.hint} />
    </main>
  );
}

/** A part of the screen broke: the bench did not. Alarms, temperatures and the three intents are drawn apart, and stay. */
function Broken() {
  const { title, teach, reload } = messages.broken;
  return (
    <>
      <h1 className={styles['name']}>{title}</h1>
      <p className={styles['numberCell']}>{teach}</p>
      <div className={styles['work']}>
        <Press name={reload} onTap={() => location.reload()} />
      </div>
    </>
  );
}
