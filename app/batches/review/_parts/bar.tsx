import { messages } from '#lib/words/review/messages';
import type { Axis } from './model';
import { on } from './classes';

const H = 32;
const MIDDLE = H / 2;
const percent = (value: number): string => `${value}%`;

interface BarProps {
  readonly axis: Axis;
  /** Tolerances away; `null`: nothing to judge yet. */
  readonly away: number | null;
  readonly crossed: readonly number[];
  readonly write: (value: number) => string;
}

/** One line's difference on the scale of all: inside the band is within; over has a tip and its number, whatever its colour. */
export function Bar({ axis, away, crossed, write }: BarProps) {
  const from = axis.at(0);
  const to = axis.at(away ?? 0);
  const outside = away !== null && Math.abs(away) > 1;
  const farthest = crossed.length === 0 ? null : Math.max(...crossed);
  const end = Math.max(from, to, farthest === null ? 0 : axis.at(farthest));
  return (
    <svg className={on('drawing')} width="100%" height={H} aria-hidden="true">
      {farthest === null ? null : (
        <rect
          className={on('crossed')}
          data-bar="crossed"
          x={percent(Math.min(from, axis.at(farthest)))}
          width={percent(Math.abs(axis.at(farthest) - from))}
          y={MIDDLE - 6}
          height={12}
        />
      )}
      {away === null ? null : (
        <rect
          className={outside ? on('over') : undefined}
          data-bar={outside ? 'outside' : 'within'}
          x={percent(Math.min(from, to))}
          width={percent(Math.abs(to - from))}
          y={MIDDLE - 5}
          height={10}
        />
      )}
      {outside && away !== null ? <Tip at={percent(to)} right={away > 0} /> : null}
      {away !== null && (away > axis.high || away < axis.low) ? <Break at={percent(to)} right={away > 0} /> : null}
      <text className={on(outside ? 'roomy over' : 'roomy')} x={percent(end)} dx={14} y={MIDDLE + 4.5}>
        {wordFor(away, farthest, write)}
      </text>
    </svg>
  );
}

const wordFor = (away: number | null, crossed: number | null, write: BarProps['write']): string => {
  if (away !== null && away > 1) return messages.against.over(write(away));
  if (away !== null && away < -1) return messages.against.short(write(-away));
  return crossed === null ? '' : messages.against.crossedOut(write(crossed));
};

/** The point of a bar that leaves the band. */
function Tip({ at, right }: { readonly at: string; readonly right: boolean }) {
  const reach = right ? 5 : -5;
  return (
    <svg x={at} y={MIDDLE - 5} width={1} height={10} overflow="visible">
      <path className={on('over')} d={`M0 0L${reach} 5L0 10Z`} />
    </svg>
  );
}

/** A cut through a bar that runs off the scale. */
function Break({ at, right }: { readonly at: string; readonly right: boolean }) {
  const x = right ? -16 : 10;
  return (
    <svg x={at} y={MIDDLE - 8} overflow="visible">
      <path className={on('cut')} d={`M${x} 16L${x + 5} 0M${x + 4} 16L${x + 9} 0`} />
    </svg>
  );
}

/** The graduations, once above and once below the bars. */
export function AxisRule({ axis, below = false, word = '' }: { readonly axis: Axis; readonly below?: boolean; readonly word?: string }) {
  const height = below ? 24 : 36;
  const at = below ? 0 : height;
  const ends = [axis.ticks[0], axis.ticks.at(-1)];
  return (
    <svg className={on('drawing')} width="100%" height={height} aria-hidden="true">
      {word === '' ? null : (
        <text className={on('quiet')} x={percent(axis.at(0))} y={10} textAnchor="middle">
          {word}
        </text>
      )}
      <line className={on('axis')} x1={percent(axis.at(axis.low))} x2={percent(axis.at(axis.high))} y1={at} y2={at} />
      {axis.ticks.map((tick) => (
        <g key={tick}>
          <line
            className={on('axis')}
            x1={percent(axis.at(tick))}
            x2={percent(axis.at(tick))}
            y1={below ? 0 : height - 5}
            y2={below ? 5 : height}
          />
          <text
            className={tick === 0 || tick === ends[0] || tick === ends[1] ? undefined : on('roomy')}
            x={percent(axis.at(tick))}
            y={below ? 18 : height - 10}
            textAnchor="middle"
          >
            {tick > 0 ? `+${tick}` : tick < 0 ? `−${-tick}` : '0'}
          </text>
        </g>
      ))}
    </svg>
  );
}
