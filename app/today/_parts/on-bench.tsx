'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { figureNumber, temperatureFigure } from '#lib/units/format';
import type { LiveProbe } from '#lib/protocol/live';
import type { BatchState } from '#lib/work/batch/index';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { Measured } from '../../_ui/figures';
import { showIn } from '#lib/words/quantities';
import type { Show } from '#lib/words/quantities';
import { PaperSection } from '../../_ui/section';
import { Head } from '../../_ui/head';
import { messages } from '../messages';
import { LinesSoFar } from './lines-so-far';
import { onBench } from './standing';
import { on } from './classes';

/** The batch that stands on the bench now: what is next, the temperatures, and every line so far. */
export function OnBench() {
  const batch = useLive(onBench);
  const waits = useLive(see.phase) === 'resume';
  const display = useDisplay();
  const show = showIn(display);
  if (batch === null) return null;
  const { bench } = messages;
  return (
    <PaperSection name={bench.title} note={<p>{bench.lines.picture(...tallyOf(batch))}</p>}>
      <div className={on('beside')}>
        <div>
          <h3>
            {batch.plan.formula.name} <span className={on('mark')}>{batch.mark}</span>
          </h3>
          <p className={on('gap')}>{waits ? bench.resume : nextOf(batch, show)}</p>
          <Temperatures />
          <div className={on('acts')}>
            <Link className={on('act first')} href="/bench" prefetch={false}>
              {bench.open}
            </Link>
            <Link className={on('act')} href={`/batches/review?id=${encodeURIComponent(batch.id)}` as Route} prefetch={false}>
              {bench.review}
            </Link>
          </div>
        </div>
        <LinesSoFar batch={batch} locale={display.locale} />
      </div>
    </PaperSection>
  );
}

const tallyOf = (batch: BatchState): readonly [number, number, number] => {
  const lines = Object.values(batch.lines);
  const closed = lines.filter(({ status }) => status === 'closed');
  return [closed.length, lines.length, closed.filter(({ outcome }) => outcome === 'within').length];
};

const nextOf = (batch: BatchState, show: Show): string => {
  const { bench } = messages;
  if (batch.status === 'parked') return bench.parked;
  if (batch.status === 'joined') return bench.joined;
  if (batch.away !== null) return bench.away;
  const line = batch.open === null ? undefined : batch.lines[batch.open];
  if (line === undefined) return bench.meet;
  return bench.next(line.plan.material.name.toLowerCase(), show.mass(line.plan.target - line.actual), line.plan.lot?.mark ?? null);
};

/** A value that is not fresh is a word, not a number. */
function Temperatures() {
  const display = useDisplay();
  const probes = (useLive(see.probes) ?? []).filter(({ use }) => use !== 'room');
  const { temperature } = messages.bench;
  if (probes.length === 0) return null;
  return (
    <table className={on('table gap')}>
      <thead>
        <tr>
          <Head name={temperature.vessel} />
          <Head name={temperature.now} unit={temperatureFigure(0, display).unit} n />
        </tr>
      </thead>
      <tbody>
        {probes.map((probe) => (
          <tr key={`${probe.use} ${probe.name}`}>
            <th scope="row">{temperature[probe.use]}</th>
            <td className={on('n')}>
              {probe.value === null ? wordOf(probe) : <Measured>{figureNumber(temperatureFigure(probe.value, display))}</Measured>}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const wordOf = (probe: LiveProbe): string => {
  const { instruments } = messages;
  if (probe.link !== 'live') return instruments.links[probe.link];
  return probe.suspect === null ? instruments[probe.freshness === 'late' ? 'late' : 'lost'] : instruments.suspect;
};
