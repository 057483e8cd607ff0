import type { Display } from '#lib/units/display';
import { differenceFigure, figureNumber, temperatureFigure } from '#lib/units/format';
import styles from './glass.module.css';
import { columnFill, columnNotch, columnOutline, degreesOf, TEMPERATURE_GLASS } from './temperature-shape';
import type { Degrees, TemperatureGlass } from './temperature-shape';
import { ticks } from './vernier-shape';

export interface TemperatureColumnsProps {
  readonly frame: keyof typeof TEMPERATURE_GLASS;
  /** Thousandths of a degree; `null`: not known, and hatched. */
  readonly lye: number | null;
  readonly oils: number | null;
  readonly window: { readonly low: number; readonly high: number };
  /** `null`: no difference to show. */
  readonly allowedApart: number | null;
  readonly display: Display;
  readonly words: { readonly lye: string; readonly oils: string; readonly apart: string; readonly allowed: string };
}

/** Lye and oils side by side: the window as a notch in both, the allowed difference as a jaw between them. */
export function TemperatureColumns({ frame, lye, oils, window, allowedApart, display, words }: TemperatureColumnsProps) {
  const glass = TEMPERATURE_GLASS[frame];
  const degrees = degreesOf(glass, window);
  return (
    <svg className={styles['glass']} viewBox={`0 0 ${glass.width} ${glass.height}`} aria-hidden="true" focusable="false">
      <Column glass={glass} degrees={degrees} x={glass.lye.x} value={lye} kind="lye" word={words.lye} />
      <Column glass={glass} degrees={degrees} x={glass.oils.x} value={oils} kind="oils" word={words.oils} />
      <Numbers glass={glass} degrees={degrees} display={display} />
      {lye === null || oils === null || allowedApart === null ? null : (
        <Jaw glass={glass} degrees={degrees} lye={lye} oils={oils} allowed={allowedApart} display={display} words={words} />
      )}
    </svg>
  );
}

interface ColumnProps {
  readonly glass: TemperatureGlass;
  readonly degrees: Degrees;
  readonly x: number;
  readonly value: number | null;
  readonly kind: 'lye' | 'oils';
  readonly word: string;
}

function Column({ glass, degrees, x, value, kind, word }: ColumnProps) {
  const y = value === null ? glass.top : degrees.y(value);
  const inWindow = y >= degrees.high && y <= degrees.low;
  const reach = inWindow ? glass.shoulder : 0;
  const brims = value !== null && value > degrees.to;
  const etch = ticks(degrees.from / 1000, degrees.to / 1000, 6, 5, (at) => degrees.y(at * 1000));
  return (
    <>
      <path className={styles['cavity']} d={`${columnOutline(glass, x, degrees, 0)}Z`} />
      <path className={value === null ? styles['unknown'] : styles[kind]} d={columnFill(glass, x, degrees, y)} />
      <path className={styles['etch']} d={etch.map((tick) => `M${x} ${tick.y}h${tick.major ? 12 : 6}`).join('')} />
      {value === null ? null : brims ? (
        <rect className={styles[kind]} x={x - glass.inset} y={0} width={glass.column + 2 * glass.inset} height={glass.inset * 2.5} />
      ) : (
        <path className={styles['level']} d={`M${x - reach + 3} ${y}H${x + glass.column + reach - 3}`} />
      )}
      <path className={styles['wall']} d={columnOutline(glass, x, degrees, 8)} />
      <path className={styles['notch']} d={columnNotch(glass, x, degrees)} />
      <text
        className={styles[`${kind}Word`]}
        fontSize={glass.text.plain * 1.1}
        x={x + glass.column / 2}
        y={glass.height - 3}
        textAnchor="middle"
      >
        {word}
      </text>
    </>
  );
}

function Numbers({ glass, degrees, display }: { readonly glass: TemperatureGlass; readonly degrees: Degrees; readonly display: Display }) {
  const { plain, strong } = glass.text;
  const right = glass.lye.x - glass.shoulder - 6;
  const edges = [degrees.high, degrees.low];
  const write = (milliCelsius: number): string => figureNumber(temperatureFigure(milliCelsius, display, 0));
  const at = (y: number): number => degrees.from + ((glass.foot - y) / (glass.foot - glass.top)) * (degrees.to - degrees.from);
  const others = ticks(degrees.from / 1000, degrees.to / 1000, 6, 1, (value) => degrees.y(value * 1000));
  return (
    <g className={styles['scale']}>
      {others
        .filter(({ y }) => edges.every((edge) => Math.abs(edge - y) > strong) && y < glass.foot - 4 && y > glass.top + 4)
        .map(({ value, y }) => (
          <text key={value} fontSize={plain} x={right} y={y + plain * 0.34} textAnchor="end">
            {write(value * 1000)}
          </text>
        ))}
      {edges.map((y) => (
        <text key={y} className={styles['target']} fontSize={strong} x={right} y={y + strong * 0.34} textAnchor="end">
          {write(at(y))}
        </text>
      ))}
    </g>
  );
}

interface JawProps {
  readonly glass: TemperatureGlass;
  readonly degrees: Degrees;
  readonly lye: number;
  readonly oils: number;
  readonly allowed: number;
  readonly display: Display;
  readonly words: TemperatureColumnsProps['words'];
}

/** Hangs from the hotter level; the cooler one must reach into it. */
function Jaw({ glass, degrees, lye, oils, allowed, display, words }: JawProps) {
  const { plain, strong } = glass.text;
  const hot = Math.max(lye, oils);
  const [top, foot, reach] = [degrees.y(hot), degrees.y(hot - allowed), degrees.y(Math.min(lye, oils))];
  const from = glass.lye.x + glass.column + glass.shoulder + 4;
  const to = glass.oils.x - glass.shoulder - 4;
  const middle = (from + to) / 2;
  const half = Math.min(16, (to - from) / 4);
  const [hotEdge, coolEdge] = lye >= oils ? [from, to] : [to, from];
  const side = glass.oils.x + glass.column + glass.shoulder + 8;
  const number = (value: number): string => figureNumber(differenceFigure(value, display));
  const between = (top + reach) / 2;
  return (
    <>
      {hot > degrees.to ? null : (
        <>
          <path
            className={styles['jaw']}
            d={`M${hotEdge} ${top}H${lye >= oils ? middle + half : middle - half}M${middle - half} ${top}V${foot}H${middle + half}V${top}`}
          />
          {reach > foot + 6 ? <path className={styles['gap']} d={`M${middle} ${foot + 6}V${reach}`} /> : null}
          <path className={styles['reach']} d={`M${coolEdge} ${reach}H${lye >= oils ? middle - half : middle + half}`} />
        </>
      )}
      <path className={styles['jaw']} d={`M${side} ${top}h8V${reach}h-8`} />
      <g className={styles['scale']}>
        <text className={styles['target']} fontSize={strong} x={side + 14} y={between + strong * 0.2}>
          {number(Math.abs(lye - oils))}
        </text>
      </g>
      <text className={styles['word']} fontSize={plain} x={side + 14} y={between + strong * 0.2 + plain * 1.1}>
        {words.apart}
      </text>
      {hot > degrees.to ? null : (
        <Allowed glass={glass} x={middle} room={to - from} top={top} foot={foot} amount={number(allowed)} word={words.allowed} />
      )}
    </>
  );
}

interface AllowedProps {
  readonly glass: TemperatureGlass;
  readonly x: number;
  /** Between the two glasses. */
  readonly room: number;
  readonly top: number;
  readonly foot: number;
  readonly amount: string;
  readonly word: string;
}

/** A letter of the word is about so wide, in its own size. */
const LETTER = 0.52;

/** Above the jaw, or below it where the lip leaves no room; small enough to stand clear of the glass on both sides. */
function Allowed({ glass, x, room, top, foot, amount, word }: AllowedProps) {
  const { plain, strong } = glass.text;
  const y = top > plain + strong + 12 ? top - 8 : foot + strong + plain + 8;
  return (
    <>
      <g className={styles['scale']}>
        <text className={styles['target']} fontSize={strong} x={x} y={y - plain} textAnchor="middle">
          {amount}
        </text>
      </g>
      <text className={styles['word']} fontSize={Math.min(plain, room / (LETTER * word.length))} x={x} y={y} textAnchor="middle">
        {word}
      </text>
    </>
  );
}
