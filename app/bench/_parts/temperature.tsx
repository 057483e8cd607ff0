'use client';
import { figureNumber, temperatureFigure } from '#lib/units/format';
import type { Display } from '#lib/units/display';
import type { LiveProbe } from '#lib/protocol/live';
import { see } from '../../_live/selectors';
import type { LiveState } from '../../_live/store';
import { useDisplay, useLive } from '../../_live/use';
import { LiveText } from '../../_ui/live-text';
import { messages } from '../messages';
import styles from '../bench.module.css';
import { AGE_PLACES, FIGURE_SPACE, secondsText } from './words';

interface TemperatureProps {
  readonly use: 'lye' | 'oils';
  /** Opens how its reading comes about; without it the reading only stands there. */
  readonly onOpen?: (() => void) | undefined;
}

/** One of the two temperatures, how old it is, and a word where its probe's check moved it. */
export function Temperature({ use, onOpen }: TemperatureProps) {
  const freshness = useLive((state) => see[use](state)?.freshness ?? 'lost');
  const known = useLive((state) => see[use](state)?.value != null);
  const display = useDisplay();
  const { age, degrees } = READS[use];
  const length = useLive((state) => degrees(state, display).length);
  const corrected = useLive((state) => (see[use](state)?.correction ?? 0) !== 0);
  const Cell = onOpen === undefined ? 'div' : 'button';
  return (
    <Cell className={styles['temp']} data-use={use} data-fresh={freshness} onClick={onOpen}>
      <span className={styles['vessel']}>
        {use === 'lye' ? <Flask /> : <Pot />}
        {messages.temperatures[use]}
      </span>
      <LiveText className={styles['age']} read={age} />
      <span className={styles['degrees']}>
        {known ? (
          <>
            <LiveText as="b" data={{ 'data-temperature': use }} read={degrees} />{' '}
            <span key={`${length} ${corrected}`}>
              {`°${display.temperature}`}
              {corrected ? <i data-offset={use}> {messages.temperatures.offset}</i> : null}
            </span>
          </>
        ) : (
          <i className={styles['noDegrees']} />
        )}
      </span>
    </Cell>
  );
}

const reads = (use: 'lye' | 'oils') => ({
  age: (state: LiveState, { locale }: Display): string => ageOf(see[use](state), locale),
  degrees: (state: LiveState, display: Display): string => {
    const value = see[use](state)?.value ?? null;
    return value === null ? '' : figureNumber(temperatureFigure(value, display));
  },
});
const READS = { lye: reads('lye'), oils: reads('oils') };

const ageOf = (probe: LiveProbe | null, locale: string): string => {
  if (probe === null) return messages.temperatures.none;
  if (probe.suspect !== null) return messages.scale.suspect;
  if (probe.freshness !== 'fresh' || probe.age === null) return messages.scale[probe.freshness];
  return messages.scale.age(secondsText(probe.age, locale)).padStart(AGE_PLACES, FIGURE_SPACE);
};

const Flask = () => (
  <svg viewBox="0 0 28 32" aria-hidden="true">
    <path d="M9 3h10M11 3v9L4 27a2 2 0 0 0 2 2h16a2 2 0 0 0 2-2L17 12V3" />
    <path className={styles['solid']} d="M9 20h10l3 7H6z" />
  </svg>
);
const Pot = () => (
  <svg viewBox="0 0 30 32" aria-hidden="true">
    <path d="M2 9h26M5 9v17a3 3 0 0 0 3 3h14a3 3 0 0 0 3-3V9" />
    <path className={styles['solid']} d="M7 16h16v10H7z" />
  </svg>
);
