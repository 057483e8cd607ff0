'use client';
import type { InstrumentConfig, LinkStatus } from '#lib/measure/instrument';
import type { LiveProbe, LiveScale } from '#lib/protocol/live';
import { figure, figureNumber } from '#lib/units/format';
import type { LiveState } from '../../_live/store';
import { useDisplay, useLive } from '../../_live/use';
import { Measured, MeasuredQuantity } from '../../_ui/figures';
import { showIn } from '#lib/words/quantities';
import { messages } from '../messages';
import { on } from './classes';

/** The live side of one instrument. Probes go by their name: a board may carry several. */
const liveOf =
  (config: InstrumentConfig) =>
  ({ frame, stale }: LiveState): LiveScale | LiveProbe | null => {
    if (frame === null || stale) return null;
    return config.kind === 'scale'
      ? (frame.scales.find(({ id }) => id === config.id) ?? null)
      : (frame.probes.find(({ use, name }) => (config.use === null ? name === config.name : use === config.use)) ?? null);
  };

/** Two cells: what it says and how old that is. What is not fresh is a word. */
export function Now({ config, status }: { readonly config: InstrumentConfig; readonly status: LinkStatus }) {
  const display = useDisplay();
  const seen = useLive(liveOf(config));
  const show = showIn(display);
  const text = valueOf(seen, (mass, division) => show.mass(mass, division), show.temperature);
  const age = seen?.age ?? null;
  return (
    <>
      <td className={on('n')}>{text === null ? wordOf(seen, status) : <MeasuredQuantity text={text} />}</td>
      <td className={on('n wide')}>
        {age === null || text === null ? '' : <Measured>{figureNumber(figure(age / 1000, 1, '', display.locale))}</Measured>}
      </td>
    </>
  );
}

const valueOf = (
  seen: LiveScale | LiveProbe | null,
  mass: (gross: number, division: number | null) => string,
  temperature: (value: number) => string,
): string | null => {
  if (seen === null) return null;
  if ('gross' in seen) return seen.gross === null ? null : mass(seen.gross, seen.division);
  return seen.value === null ? null : temperature(seen.value);
};

const wordOf = (seen: LiveScale | LiveProbe | null, { phase }: LinkStatus): string => {
  const { freshness, phases } = messages;
  if (phase !== 'live' || seen === null) return phases[phase];
  if (seen.suspect !== null) return freshness.suspect;
  if ('range' in seen && seen.range !== 'in') return seen.range === 'over' ? freshness.overload : freshness.underload;
  return seen.freshness === 'fresh' ? phases.live : freshness[seen.freshness];
};
