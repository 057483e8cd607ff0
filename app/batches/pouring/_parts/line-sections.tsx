'use client';
import { useState } from 'react';
import type { HistoryPage } from '#lib/protocol/history';
import { numberText } from '#lib/units/format';
import type { ControlChart as Chart } from '#lib/work/history/chart';
import { ControlChart } from '../../../_charts/control-chart';
import { RangeChart } from '../../../_charts/range-chart';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { Choice } from '../../../_ui/fields';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../messages';
import { lineSeries, materialsIn, movedIn, scalesIn } from './model';
import { Signals } from './signals';

const EVERY = '';

/** One line over many batches, its moving ranges below; the line that changed first. */
export function LineSections({ page }: { readonly page: HistoryPage }) {
  const { batches, scales } = page;
  const materials = materialsIn(batches);
  const [chosen, setMaterial] = useState<string | null>(null);
  const [scale, setScale] = useState<string>(EVERY);
  const material =
    chosen !== null && materials.includes(chosen) ? chosen : (movedIn(batches, materials)[0]?.material ?? materials[0] ?? '');
  const series = lineSeries(batches, material, scale === EVERY ? null : scale);
  const { line, choose } = messages;
  return (
    <>
      <PaperSection name={line.title} note={<p>{line.note}</p>}>
        <div className={on('form')}>
          <Choice
            id="line"
            label={choose.line}
            value={material}
            options={materials.map((name) => [name, name] as const)}
            onChange={setMaterial}
          />
          <Choice
            id="scale"
            label={choose.scale}
            value={scale}
            options={[[EVERY, choose.scales], ...scalesIn(batches).map((id) => [id, scales[id] ?? id] as const)]}
            onChange={setScale}
          />
        </div>
        {series.chart === null ? (
          <p className={on('gap')}>{messages.few}</p>
        ) : (
          <LineChart {...series} chart={series.chart} material={material} />
        )}
      </PaperSection>
      {series.chart === null ? null : <Ranges chart={series.chart} marks={series.marks.slice(1)} />}
    </>
  );
}

interface LineChartProps {
  readonly chart: Chart;
  readonly values: readonly number[];
  readonly marks: readonly string[];
  readonly material: string;
}

function LineChart({ chart, values, marks, material }: LineChartProps) {
  const { locale } = useDisplay();
  const write = (value: number): string => numberText(value, locale, 2);
  const label = messages.line.label(material, write(chart.centre), write(chart.upper), write(chart.lower));
  return (
    <figure>
      <ControlChart
        chart={chart}
        values={values}
        marks={marks}
        write={write}
        words={messages.chart}
        allowed={{ low: -1, high: 1 }}
        label={label}
      />
      <Signals chart={chart} marks={marks} ranges={false} />
    </figure>
  );
}

function Ranges({ chart, marks }: { readonly chart: Chart; readonly marks: readonly string[] }) {
  const { locale } = useDisplay();
  const { range } = messages;
  return (
    <PaperSection name={range.title} note={<p>{range.note}</p>}>
      <figure>
        <RangeChart chart={chart} marks={marks} write={(value) => numberText(value, locale, 2)} words={range} label={range.label} />
        <p className={on('dim reading')}>{messages.sources}</p>
      </figure>
    </PaperSection>
  );
}
