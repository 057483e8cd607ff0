'use client';
import { useEffect, useRef } from 'react';
import UPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import type { Display } from '#lib/units/display';
import { figureNumber, temperatureFigure } from '#lib/units/format';
import { SAMPLE_EVERY_MS } from '../_live/ring';
import { see } from '../_live/selectors';
import { live, liveStore, temperatures, useDisplay } from '../_live/use';
import { drawEnd } from './curve-ends';
import { drawExpected, endOf, reachOf } from './curves-expected';
import type { Expected } from './curves-expected';
import styles from './glass.module.css';

export interface CurvesProps {
  readonly window: { readonly low: number; readonly high: number };
  readonly words: { readonly lye: string; readonly oils: string };
  readonly label: string;
  readonly ago: (minutes: number) => string;
}

/**
 * Both curves since the page opened and what is expected of them: one chart, a ring of fixed size, redrawn once a second and read straight
 * from the live state.
 */
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

/** What is expected now, on the page's own clock; `null` while nothing is, or everything is blank. */
const expected = (): Expected | null => {
  const lane = see.forecast(liveStore.getState());
  const now = live().serverNow();
  return lane === null || now === null ? null : { lane, shift: (performance.now() - now) / 1000 };
};

/** The oldest second shown and the newest: ten minutes at least, a little room after now, and all that is expected. */
const rangeOf = (min: number, max: number): [number, number] => {
  const from = Math.min(min, max - 600);
  const ahead = expected();
  const end = ahead === null ? null : endOf(ahead);
  return [from, Math.max(max + (max - from) * 0.03, end ?? 0)];
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
  const text = Number.parseFloat(style.fontSize);
  const font = `500 ${text}px ${style.fontFamily}`;
  const [low, high] = [window.low / 1000, window.high / 1000];
  const degrees = (value: number): string => figureNumber(temperatureFigure(value * 1000, display, 0));
  const axis = { stroke: ink('--ink-dim'), font, grid: { show: false }, ticks: { stroke: ink('--glass'), size: text * 0.3 } };
  const line = (name: 'lye' | 'oils'): UPlot.Series => ({
    label: words[name],
    stroke: ink(`--${name}`),
    width: text * 0.2,
    points: { show: false },
    spanGaps: false,
  });
  return {
    width: box.clientWidth,
    height: box.clientHeight,
    legend: { show: false },
    cursor: { show: false },
    scales: {
      x: { time: false, range: (_chart, min, max) => rangeOf(min, max) },
      y: {
        range: (chart, min, max) => {
          const ahead = expected();
          const reach = ahead === null ? null : reachOf(ahead, chart.scales['x']?.max ?? 0);
          return [Math.min(min ?? low, low, reach?.low ?? low) - 4, Math.max(max ?? high, high, reach?.high ?? high) + 6];
        },
      },
    },
    axes: [
      {
        ...axis,
        size: text * 1.5,
        values: (chart, at) => at.map((second) => ago(Math.round(((chart.data[0].at(-1) ?? second) - second) / 60))),
        splits: (chart, _index, min, max) => fromNow(min, chart.data[0].at(-1) ?? max, max, chart.width / (text * 6)),
      },
      { ...axis, size: text * 2.6, splits: () => [low, high], values: (_chart, values) => values.map(degrees) },
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
      draw: [
        (chart) => {
          const ahead = expected();
          const inks = { lye: ink('--lye'), oils: ink('--oils'), plain: ink('--ink'), text };
          if (ahead !== null) drawExpected(chart, ahead, window, inks);
          const ends = [chart.data[1]?.at(-1), chart.data[2]?.at(-1)];
          drawEnd(chart, { value: ends[0], other: ends[1], word: words.lye, colour: ink('--lye'), text });
          drawEnd(chart, { value: ends[1], other: ends[0], word: words.oils, colour: ink('--oils'), text });
        },
      ],
    },
  };
};

/** Ticks back from now and on from it, two minutes apart or as many more as leave room for `most` labels. */
const fromNow = (min: number, now: number, max: number, most: number): number[] => {
  const step = [120, 300, 600, 1_200, 2_400].find((candidate) => (max - min) / candidate <= most) ?? 3_600;
  const ticks: number[] = [];
  for (let at = now; at >= min; at -= step) ticks.unshift(at);
  for (let at = now + step; at <= max; at += step) ticks.push(at);
  return ticks;
};
