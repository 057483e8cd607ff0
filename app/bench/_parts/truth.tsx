'use client';
import type { LiveProbe, LiveScale } from '#lib/protocol/live';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { messages } from '../messages';
import styles from '../bench.module.css';
import { AGE_PLACES, FIGURE_SPACE, secondsText } from './words';
import { useSeen } from './seen';

/** Whether the instruments are telling the truth, at the foot of what they feed. */
export function Truth() {
  const { phase } = useSeen();
  const probes = phase === 'joining' || phase === 'temperatures' || phase === 'trace';
  return <div className={styles['truth']}>{probes ? <ProbesTruth /> : <ScaleTruth />}</div>;
}

function ScaleTruth() {
  const scale = useLive(see.scale);
  const { locale } = useDisplay();
  if (scale === null) return null;
  const state = stateOf(scale);
  return (
    <span key={`${scale.name} ${state} ${scale.checked}`} data-fresh={scale.freshness}>
      <Sign state={scale.freshness === 'fresh' ? scale.motion : 'lost'} />
      <b>{messages.scale.by(scale.name, state)}</b>
      {scale.age === null ? null : (
        <span className={styles['age']}>{messages.scale.age(secondsText(scale.age, locale)).padStart(AGE_PLACES, FIGURE_SPACE)}</span>
      )}
      <span>{scale.checked ? messages.scale.checked : messages.scale.never}</span>
    </span>
  );
}

const stateOf = (scale: LiveScale): string => {
  if (scale.link !== 'live') return messages.scale.links[scale.link];
  if (scale.freshness !== 'fresh') return messages.scale[scale.freshness];
  if (scale.suspect !== null) return messages.scale.suspect;
  return messages.scale[scale.motion];
};

const word = (probe: LiveProbe | null): string =>
  probe === null ? messages.scale.none : probe.suspect === null ? messages.scale[probe.freshness] : messages.scale.suspect;

export function ProbesTruth() {
  const lye = useLive(see.lye);
  const oils = useLive(see.oils);
  return (
    <span key={`${word(lye)} ${word(oils)}`} data-fresh={lye?.freshness === 'fresh' && oils?.freshness === 'fresh' ? 'fresh' : 'lost'}>
      <b>{messages.scale.by(messages.temperatures.lye, word(lye))}</b>
      <b>{messages.scale.by(messages.temperatures.oils, word(oils))}</b>
    </span>
  );
}

/** A wave while it moves, two bars when it stands, a cross when it is lost. */
function Sign({ state }: { readonly state: 'stable' | 'moving' | 'unstated' | 'lost' }) {
  const path = { stable: 'M3 7h14M3 13h14', moving: 'M2 12c3-7 5-7 8 0s5 7 8 0', unstated: 'M7 10h6', lost: 'M4 4l12 12M16 4L4 16' }[state];
  return (
    <svg viewBox="0 0 20 20" aria-hidden="true">
      <path d={path} />
    </svg>
  );
}
