'use client';
import { Press } from '../_ui/press';
import styles from './bench.module.css';
import { messages } from './messages';
import { Alarm } from './_parts/voice';

/** When a part of the screen breaks the alarms go on showing and sounding: they are drawn by themselves. */
export default function BenchError() {
  return (
    <main data-light="bench" className={styles['bench']} data-shape="held" data-phase="broken">
      <div className={styles['plate']} aria-hidden="true" />
      <h1 className={styles['name']}>{messages.broken.title}</h1>
      <div className={styles['numberCell']}>{messages.broken.teach}</div>
      <div className={styles['hands']}>
        <Press name={messages.broken.reload} onTap={() => location.reload()} />
      </div>
      <Alarm />
    </main>
  );
}
