import type { Display } from '#lib/units/display';
import { figureNumber, temperatureFigure } from '#lib/units/format';
import styles from './glass.module.css';
import { ticks } from './vernier-shape';

export interface TemperatureStripProps {
  /** Thousandths of a degree; `null`: not known, and not drawn. */
  readonly lye: number | null;
  readonly oils: number | null;
  readonly window: { readonly low: number; readonly high: number };
  readonly display: Display;
  readonly words: { readonly lye: string; readonly oils: string };
  /** A few words above the scale. */
  readonly above?: string | null;
}

const WIDTH = 792;
const HEIGHT = 104;
const LINE = 62;
const FROM = 15_000;
const TO = 105_000;

/** Both temperatures on one lying scale with the window to meet in: beside the weighing, read in passing. */
export function TemperatureStrip({ lye, oils, window, display, words, above = null }: TemperatureStripProps) {
  const x = (value: number): number => 4 + ((Math.min(TO, Math.max(FROM, value)) - FROM) / (TO - FROM)) * (WIDTH - 8);
  const marks = ticks(FROM / 1000, TO / 1000, 9, 5, (degrees) => x(degrees * 1000));
  const edges = [window.low, window.high];
  return (
    <svg className={styles['glass']} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true" focusable="false">
      <path className={styles['cavity']} d={`M${x(window.low)} ${LINE - 24}H${x(window.high)}V${LINE + 12}H${x(window.low)}Z`} />
      <path
        className={styles['etch']}
        d={`M0 ${LINE}H${WIDTH}${marks.map(({ y, major }) => `M${y} ${LINE}v${major ? 12 : 6}`).join('')}`}
      />
      <path className={styles['jaw']} d={`M${x(window.low)} ${LINE - 24}V${LINE + 12}M${x(window.high)} ${LINE - 24}V${LINE + 12}`} />
      <g className={styles['scale']}>
        {edges.map((edge) => (
          <text key={edge} className={styles['target']} fontSize={24} x={x(edge)} y={HEIGHT - 6} textAnchor="middle">
            {figureNumber(temperatureFigure(edge, display, 0))}
          </text>
        ))}
      </g>
      {above === null ? null : (
        <text className={styles['word']} fontSize={24} x={WIDTH - 4} y={22} textAnchor="end">
          {above}
        </text>
      )}
      {oils === null ? null : (
        <Pin x={x(oils)} kind="oils" word={words.oils} far={lye !== null && Math.abs(x(lye) - x(oils)) < 60 && oils > lye} />
      )}
      {lye === null ? null : (
        <Pin x={x(lye)} kind="lye" word={words.lye} far={oils !== null && Math.abs(x(lye) - x(oils)) < 60 && lye >= oils} />
      )}
    </svg>
  );
}

/** Points down at the scale; its word stands left of it, or right when both are near. */
function Pin({ x, kind, word, far }: { readonly x: number; readonly kind: 'lye' | 'oils'; readonly word: string; readonly far: boolean }) {
  return (
    <>
      <path className={styles[kind]} d={`M${x} ${LINE - 2}l-13 -26h26z`} />
      <text className={styles[`${kind}Word`]} fontSize={24} x={far ? x + 18 : x - 18} y={LINE - 10} textAnchor={far ? 'start' : 'end'}>
        {word}
      </text>
    </>
  );
}
