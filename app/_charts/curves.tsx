'use client';
import { useEffect, useRef } from 'react';
import UPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import type { Display } from '#lib/units/display';
import { figureNumber, temperatureFigure } from '#lib/units/format';
import { SAMPLE_EVERY_MS } from '../_live/ring';
import { temperatures, useDisplay } from '../_live/use';
import styles from './glass.module.css';

export interface CurvesProps {
  readonly window: { readonly low: number; readonly high: number };
  readonly words: { readonly lye: string; readonly oils: string };
  readonly label: string;
  readonly ago: (minutes: number) => string;
}

/** Both curves since the page opened: one chart, a ring of fixed size, redrawn once a second. */
export function Curves({ window, words, label, ago }: CurvesProps) {
  const own = useRef<HTMLDivElement>(null);
  const display = useDisplay();
  useEffect(() => {
    const box = own.current;
    if (box === null) return undefined;
    const chart = new UPlot(options(box, window, words, ago, display), data(), box);
    const timer = setInterval(() => chart.setData(data()), SAMPLE_EVERY_MS);
    const fit = new ResizeObserver(() => chart.setSize({ width: box.clientWidth, height: box.clientHeight }));
    fit.observe(box);
    return () => {
      clearInterval(timer);
      fit.disconnect();
      chart.destroy();
    };
  }, [window, words, ago, display]);
  return (
    <figure className={styles['curves']}>
      <figcaption className="unseen">{label}</figcaption>
      <div ref={own} className={styles['curves']} aria-hidden="true" />
    </figure>
  );
}

/** The chart wants a hole as `null`; the ring holds it as NaN. */
const holes = (values: Float64Array): (number | null)[] => Array.from(values, (value) => (Number.isNaN(value) ? null : value));
const data = (): UPlot.AlignedData => {
  const [at, lye, oils] = temperatures.read();
  return [at, holes(lye), holes(oils)] as UPlot.AlignedData;
};

const options = (
  box: HTMLElement,
  window: CurvesProps['window'],
  words: CurvesProps['words'],
  ago: CurvesProps['ago'],
  display: Display,
): UPlot.Options => {
  const style = getComputedStyle(box);
  const ink = (name: string): string => style.getPropertyValue(name).trim();
  const unit = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 10;
  const font = (size: number): string => `500 ${size * unit}px ${style.fontFamily}`;
  const [low, high] = [window.low / 1000, window.high / 1000];
  const degrees = (value: number): string => figureNumber(temperatureFigure(value * 1000, display, 0));
  const axis = { stroke: ink('--ink-dim'), font: font(20), grid: { show: false }, ticks: { stroke: ink('--glass'), size: 6 * unit } };
  const line = (name: 'lye' | 'oils'): UPlot.Series => ({
    label: words[name],
    stroke: ink(`--${name}`),
    width: 4 * unit,
    points: { show: false },
    spanGaps: false,
  });
  return {
    width: box.clientWidth,
    height: box.clientHeight,
    legend: { show: false },
    cursor: { show: false },
    scales: {
      x: { time: false, range: (_chart, min, max) => [Math.min(min, max - 600), max] },
      y: { range: (_chart, min, max) => [Math.min(min ?? low, low) - 4, Math.max(max ?? high, high) + 6] },
    },
    axes: [
      {
        ...axis,
        size: 30 * unit,
        space: 120 * unit,
        values: (chart, at) => at.map((second) => ago(Math.round(((chart.scales['x']?.max ?? second) - second) / 60))),
        splits: (_chart, _index, min, max) => fromNow(min, max),
      },
      { ...axis, size: 60 * unit, splits: () => [low, high], values: (_chart, values) => values.map(degrees) },
    ],
    series: [{}, line('lye'), line('oils')],
    hooks: {
      drawClear: [
        (chart) => {
          const { ctx, bbox } = chart;
          const top = chart.valToPos(high, 'y', true);
          ctx.fillStyle = ink('--sheet');
          ctx.fillRect(bbox.left, top, bbox.width, chart.valToPos(low, 'y', true) - top);
        },
      ],
    },
  };
};

/** A tick every two minutes back from now, or every ten of a long stretch. */
const fromNow = (min: number, max: number): number[] => {
  const step = max - min > 2_400 ? 1_200 : max - min > 900 ? 300 : 120;
  const ticks: number[] = [];
  for (let at = max; at >= min; at -= step) ticks.unshift(at);
  return ticks;
};
