'use client';
import { Vernier } from '../../_charts/vernier';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import type { Frame } from '../../_ui/frame';
import { messages } from '../messages';
import styles from '../bench.module.css';
import { LateAdvice, LateHowItGoes, LateMakingCautions, LateTemperatures } from './late';
import { useSeen } from './seen';
import { isWeighing } from './shape';
import { Truth } from './truth';

/** The drawing of what is going on: the vernier, the two temperatures, the precautions, or how it goes. */
export function Side({ frame }: { readonly frame: Frame }) {
  const { phase, offline } = useSeen();
  const cue = useLive(see.gate);
  // Without the bench nothing is confirmed: what to do with the hands stands there instead, and needs its room.
  const gate = offline ? null : cue;
  return (
    <div className={styles['side']} data-gate={gate === null ? undefined : ''}>
      <div className={styles['drawing']}>
        {gate !== null ? (
          <Precautions items={gate.items} frame={frame} />
        ) : phase === null ? null : phase === 'idle' || phase === 'done' ? (
          <LateHowItGoes />
        ) : isWeighing(phase) || phase === 'gate' || phase === 'away' || phase === 'resume' || phase === 'choose-lot' ? (
          <Fill frame={frame} />
        ) : phase === 'trouble' ? (
          <LateAdvice />
        ) : (
          <LateTemperatures frame={frame} />
        )}
      </div>
      <Truth />
    </div>
  );
}

function Fill({ frame }: { readonly frame: Frame }) {
  const display = useDisplay();
  const target = useLive(see.target);
  const tolerance = useLive(see.tolerance);
  const total = useLive(see.total);
  const overshoot = useLive(see.overshoot);
  const red = useLive(see.red);
  const line = useLive(see.line);
  const { kind } = useSeen();
  if (target === null || tolerance === null || line === null) return null;
  // Before the zero is taken the record's own sum stands; nothing measured is claimed.
  const shown = kind === 'left' || kind === 'words' ? total : line.actual;
  return (
    <Vernier
      frame={frame}
      target={target}
      tolerance={tolerance}
      total={shown}
      overshoot={kind === 'left' || kind === 'words' ? overshoot : null}
      red={red}
      display={display}
      words={messages.vernier}
    />
  );
}

function Precautions({ items, frame }: { readonly items: readonly string[]; readonly frame: Frame }) {
  return (
    <ol className={styles['precautions']}>
      {items.map((item) => (
        <li key={item}>{messages.precautions[item] ?? item.replaceAll('-', ' ')}</li>
      ))}
      <LateMakingCautions whole={frame === 'phone'} />
    </ol>
  );
}
