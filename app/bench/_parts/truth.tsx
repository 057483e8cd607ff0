'use client';
import { useShallow } from 'zustand/react/shallow';
import type { Display } from '#lib/units/display';
import type { LiveProbe, LiveScale } from '#lib/protocol/live';
import { see } from '../../_live/selectors';
import type { LiveState } from '../../_live/store';
import { useLive } from '../../_live/use';
import { LiveText } from '../../_ui/live-text';
import { messages } from '../messages';
import styles from '../bench.module.css';
import { AGE_PLACES, FIGURE_SPACE, secondsText } from './words';
import { useSeen } from './seen';

/** Whether the instruments are telling the truth, at the foot of what they feed. */
export function Truth() {
  const { phase } = useSeen();
  const probes = phase === 'joining' || phase === 'temperatures' || phase === 'trace';
  return <div className={styles['truth']}>{probes ? <ProbesTruth /> : <ScaleSaid look={see.scale} />}</div>;
}

type Look = (state: LiveState) => LiveScale | null;

/** What one scale says of itself. */
export function ScaleSaid({ look }: { readonly look: Look }) {
  const scale = useLive(useShallow((state: LiveState) => saidOf(look(state))));
  if (scale === null) return null;
  const { name, words, freshness, sign, aged } = scale;
  return (
    <span key={`${name} ${words}`} data-fresh={freshness}>
      <Sign state={sign} />
      <b>{messages.scale.by(name, words)}</b>
      {aged ? <LiveText className={styles['age']} read={(state, display) => ageOfScale(look(state), display)} /> : null}
    </span>
  );
}

/** What is said of the scale, apart from the age that changes with each reading. */
const saidOf = (scale: LiveScale | null) => {
  if (scale === null) return null;
  const { freshness, motion, age, checked, failure } = scale;
  const fresh = freshness === 'fresh';
  return {
    // Of a scale that says nothing it does not matter whether what it says is right.
    name: fresh ? messages.scale.named(scale.name, checked) : scale.name,
    freshness,
    words: stateOf(scale),
    sign: fresh ? motion : ('lost' as const),
    // Why its port does not open needs the room, and no reading of it is awaited.
    aged: age !== null && failure === null,
  };
};

const ageOfScale = (scale: LiveScale | null, { locale }: Display): string => {
  const age = scale?.age ?? null;
  return age === null ? '' : messages.scale.age(secondsText(age, locale)).padStart(AGE_PLACES, FIGURE_SPACE);
};

const stateOf = (scale: LiveScale): string => {
  if (scale.link !== 'live') return scale.failure === null ? messages.scale.links[scale.link] : messages.scale.failures[scale.failure];
  if (scale.freshness !== 'fresh') return messages.scale[scale.freshness];
  if (scale.suspect !== null) return messages.scale.suspect;
  return messages.scale[scale.motion];
};

const word = (probe: LiveProbe | null): string =>
  probe === null ? messages.scale.none : probe.suspect === null ? messages.scale[probe.freshness] : messages.scale.suspect;

export function ProbesTruth() {
  const lye = useLive((state) => word(see.lye(state)));
  const oils = useLive((state) => word(see.oils(state)));
  const fresh = useLive((state) => see.lye(state)?.freshness === 'fresh' && see.oils(state)?.freshness === 'fresh');
  return (
    <span key={`${lye} ${oils}`} data-fresh={fresh ? 'fresh' : 'lost'}>
      <b>{`${messages.scale.by(messages.temperatures.lye, lye)},`}</b>
      <b>{messages.scale.by(messages.temperatures.oils, oils)}</b>
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
