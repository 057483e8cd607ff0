import { scaleLinear } from 'd3-scale';
import type { UnmouldWindow } from '#lib/work/bars/unmould';
import { on } from '../../_ui/classes';
import { messages } from '../messages';

const HEIGHT = 68;
const BASE = 46;
const percent = (value: number): string => `${value}%`;

/** Hours since pouring on a rule: when the log is expected to come out, and where it is now. */
export function WindowBar({ window: { from, to, latest }, hours }: { readonly window: UnmouldWindow; readonly hours: number }) {
  const most = Math.max(to * 1.35, hours * 1.1, (latest ?? 0) * 1.2, 36);
  const x = scaleLinear([0, most], [1, 96]);
  const every = most > 150 ? 48 : most > 80 ? 24 : 12;
  const ticks = Array.from({ length: Math.floor(most / every) + 1 }, (_, at) => at * every);
  const { moulds } = messages;
  return (
    <svg className={on('drawing')} width="100%" height={HEIGHT} role="img" aria-label={moulds.drawing(hours, from, to, latest)}>
      <rect className={on('band')} x={percent(x(from))} width={percent(x(Math.max(to, from + 1)) - x(from))} y={BASE - 12} height={12} />
      <text className={on('quiet')} x={percent((x(from) + x(to)) / 2)} y={BASE - 30} textAnchor="middle">
        {moulds.earlier}
      </text>
      <line className={on('axis')} x1="0" x2="100%" y1={BASE} y2={BASE} />
      {ticks.map((tick) => (
        <g key={tick}>
          <line className={on('axis')} x1={percent(x(tick))} x2={percent(x(tick))} y1={BASE - 4} y2={BASE} />
          <text className={on('quiet')} x={percent(x(tick))} y={BASE + 16} textAnchor="middle">
            {moulds.axis(tick)}
          </text>
        </g>
      ))}
      {latest === null ? null : (
        <>
          <line className={on('axis')} x1={percent(x(latest))} x2={percent(x(latest))} y1={BASE - 24} y2={BASE} />
          <text className={on('quiet')} x={percent(x(latest))} y={BASE - 18} dx={5}>
            {moulds.cutBy}
          </text>
        </>
      )}
      <svg x={percent(x(hours))} y={BASE - 6}>
        <path d="M0 -6L6 0L0 6L-6 0Z" />
        <text x={10} y={-4} fontWeight={680}>
          {moulds.axis(hours)}
        </text>
      </svg>
    </svg>
  );
}
