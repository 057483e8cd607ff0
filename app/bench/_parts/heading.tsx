'use client';
import type { CSSProperties } from 'react';
import type { CuePhase } from '#lib/bench/cue';
import type { BatchState, LineState } from '#lib/work/batch/index';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { differenceFigure, figureNumber, temperatureFigure } from '#lib/units/format';
import { messages } from '../messages';
import styles from '../bench.module.css';
import { useControls } from './controls';
import { COMMON } from './common';
import { useSeen } from './seen';
import { isWeighing } from './shape';

/** The name and the act, by which the room below is called. */
export const ASKED = 'bench-name bench-act';

/** What to pour: the largest words of the screen. */
export function Heading() {
  const { phase, offline } = useSeen();
  const link = useLive(see.link);
  const outdated = useLive(see.outdated);
  const line = useLive(see.line);
  const gate = useLive(see.gate);
  const joining = useSeen().joiningHeld && (phase === 'joining' || phase === 'temperatures');
  const asking = useControls((state) => state.asking);
  const job = useLive((state) => see.job(state)?.name ?? null);
  const wrong = useLive(({ batch }) => batch?.wrong?.what ?? null);
  const name = ((): string => {
    if (asking !== null) return asking.what;
    if (outdated) return messages.offline.outdated.title;
    if (phase === null || (offline && line === null))
      return link === 'connecting' ? messages.offline.connecting.title : messages.offline.down.title;
    if (gate !== null) return messages.gates[gate.gate].title;
    if (joining) return messages.acts.doNotJoin;
    if (job !== null) return job;
    if (phase === 'remedy' && wrong !== null) return messages.wrongs[wrong];
    const own = messages.phases[phase].title;
    return own === '' ? (line?.plan.material.name ?? messages.title) : own;
  })();
  // The size follows from the length alone, so that it is the same before and after the face has loaded.
  return (
    <h1
      key={name}
      id="bench-name"
      className={styles['name']}
      style={{ '--fit': Math.min(1, 17 / Math.max(1, name.length)) } as CSSProperties}
    >
      {name}
    </h1>
  );
}

/** Phases besides weighing that speak of one line. */
const OF_A_LINE: ReadonlySet<CuePhase> = new Set(['gate', 'resume', 'choose-lot', 'away']);

/** Beside the name: which scale and vessel, which lot, where in the list. */
export function Which() {
  const { phase } = useSeen();
  const batch = useLive(see.batch);
  const line = useLive(see.line);
  const mark = useLive(see.mark);
  if (batch === null || mark === null || phase === 'idle') return <div className={styles['which']} />;
  const temperatures = phase === 'temperatures' || phase === 'joining';
  const named = line !== null && phase !== null && (isWeighing(phase) || OF_A_LINE.has(phase));
  return (
    <div className={styles['which']}>
      {temperatures ? <Window /> : named ? <WhereAndLot line={line} /> : null}
      <Place batch={batch} line={line} alone={!(temperatures || named)} />
    </div>
  );
}

function WhereAndLot({ line }: { readonly line: LineState }) {
  const scale = useLive(see.ownScale);
  const vessel = useLive(see.ownVessel);
  const byHand = line.plan.mode === 'by-hand';
  return (
    <>
      <span className={styles['where']}>{messages.where(byHand ? messages.byHandLine : (scale ?? ''), vessel ?? '')}</span>
      <span className={styles['lot']}>{line.plan.lot === null ? messages.noLot : messages.lot(line.plan.lot.mark)}</span>
    </>
  );
}

/** The window to meet in, with where its limits come from. */
export function Window() {
  const display = useDisplay();
  const joining = useLive(({ batch }) => batch?.plan.joining ?? null) ?? COMMON;
  const { low, high } = joining.window;
  const edge = (value: number): string => figureNumber(temperatureFigure(value, display, 0));
  const unit = differenceFigure(0, display).unit;
  return (
    <span className={styles['lot']} title={joining.source}>
      {messages.temperatures.window(`${edge(low)}–${edge(high)} ${unit}`)}
    </span>
  );
}

function Place({ batch, line, alone }: { readonly batch: BatchState; readonly line: LineState | null; readonly alone: boolean }) {
  const lines = batch.order.map((id) => batch.lines[id]);
  const done = lines.filter((one) => one?.status === 'closed').length;
  const at = line === null ? done : batch.order.indexOf(line.plan.id) + 1;
  const here = line === null ? -1 : at - 1;
  return (
    <span key={`${at} ${done} ${alone} ${line?.plan.lot?.mark}`} className={styles['place']}>
      <span className={styles['batch']}>{batch.mark}</span>
      <span className="unseen">{messages.placeSpoken(at, lines.length, done)}</span>
      <span className={styles['tally']} aria-hidden="true">
        {lines.map((one, index) => (
          <i key={batch.order[index]} data-line={index === here ? 'here' : one?.status === 'closed' ? 'done' : 'todo'} />
        ))}
      </span>
      <span className={styles['of']} aria-hidden="true">
        {messages.place(at, lines.length)}
      </span>
    </span>
  );
}
