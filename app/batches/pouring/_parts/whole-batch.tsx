'use client';
import type { HistoryPage } from '#lib/protocol/history';
import { numberText } from '#lib/units/format';
import { ControlChart } from '../../../_charts/control-chart';
import { useDisplay } from '../../../_live/use';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../messages';
import { seriesOf } from './model';
import type { Series } from './model';
import { Signals } from './signals';

const PER_PERCENT = 10_000;
const NO_LIMITS = { low: null, high: null };
const edge = (value: number | null): number | null => (value === null ? null : value / PER_PERCENT);

/** Whether what was poured has moved away from what the formulas want. */
export function SuperfatSection({ page: { batches } }: { readonly page: HistoryPage }) {
  const { locale } = useDisplay();
  const { superfat } = messages;
  const series = seriesOf(batches, (batch) => (batch.superfat === null ? null : batch.superfat.value / PER_PERCENT));
  const limits = new Set(batches.flatMap((batch) => (batch.superfat === null ? [] : [`${batch.superfat.low} ${batch.superfat.high}`])));
  const known = batches.find((batch) => batch.superfat !== null)?.superfat ?? null;
  // Limits of several formulas would be nobody's.
  const one = limits.size === 1 && known !== null ? known : NO_LIMITS;
  return (
    <PaperSection name={superfat.title} note={<p>{superfat.note}</p>}>
      {series.values.length === 0 ? (
        <p>{superfat.none}</p>
      ) : (
        <Whole
          series={series}
          write={(value) => `${numberText(value, locale, 1)} %`}
          allowed={{ low: edge(one.low), high: edge(one.high) }}
          label={superfat.label}
        />
      )}
    </PaperSection>
  );
}

export function TimeSection({ page: { batches } }: { readonly page: HistoryPage }) {
  const { locale } = useDisplay();
  const { time } = messages;
  return (
    <PaperSection name={time.title} note={<p>{time.note}</p>}>
      <Whole
        series={seriesOf(batches, ({ seconds }) => seconds / 60)}
        write={(value) => `${numberText(value, locale)} ${time.unit}`}
        label={time.label}
      />
    </PaperSection>
  );
}

interface WholeProps {
  readonly series: Series;
  readonly write: (value: number) => string;
  readonly label: (mean: string) => string;
  readonly allowed?: { readonly low: number | null; readonly high: number | null };
}

function Whole({ series: { chart, values, marks }, write, label, allowed = NO_LIMITS }: WholeProps) {
  if (chart === null) return <p>{messages.few}</p>;
  return (
    <figure>
      <ControlChart
        chart={chart}
        values={values}
        marks={marks}
        write={write}
        words={messages.chart}
        allowed={allowed}
        label={label(write(chart.centre))}
      />
      <Signals chart={chart} marks={marks} ranges />
    </figure>
  );
}
