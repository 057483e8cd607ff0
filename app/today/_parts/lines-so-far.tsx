import { scaleLinear, scalePoint } from 'd3-scale';
import { numberText } from '#lib/units/format';
import type { BatchState, LineState } from '#lib/work/batch/index';
import { crossedOutAway } from '#lib/words/away';
import { messages } from '../messages';
import { on } from './classes';

const HEIGHT = 208;
/** A difference of this many tolerances reaches the edge; more has a tip there, and its number. */
const EDGE = 4;
const y = scaleLinear([-EDGE, EDGE], [HEIGHT - 20, 20]).clamp(true);
const ZERO = y(0);
/** Half the width of a bar. */
const HALF = 6;
const percent = (value: number): string => `${value}%`;

/** Every line in its order of work: weighed ones as bars up or down from their target, in tolerances; what is next, and what waits. */
export function LinesSoFar({ batch, locale }: { readonly batch: BatchState; readonly locale: string }) {
  const lines = batch.order.flatMap((id) => batch.lines[id] ?? []);
  const x = scalePoint(
    lines.map(({ plan }) => plan.id as string),
    [14, 97],
  );
  const { lines: words } = messages.bench;
  return (
    <figure>
      <svg className={on('drawing')} width="100%" height={HEIGHT} aria-hidden="true">
        <rect className={on('band')} x="0" width="100%" y={y(1)} height={y(-1) - y(1)} />
        <text className={on('quiet')} x="0" dx={6} y={y(1) - 6}>
          {words.over}
        </text>
        <text className={on('quiet')} x="0" dx={6} y={y(-1) + 16}>
          {words.short}
        </text>
        <text className={on('quiet')} x="100%" dx={-6} y={y(-1) + 16} textAnchor="end">
          {words.within}
        </text>
        <line className={on('axis')} x1="0" x2="100%" y1={ZERO} y2={ZERO} />
        {lines.map((line) => {
          const at = x(line.plan.id) ?? 0;
          if (batch.open === line.plan.id) return <Next key={line.plan.id} line={line} at={at} />;
          if (line.status !== 'closed')
            return <line key={line.plan.id} className={on('axis')} x1={percent(at)} x2={percent(at)} y1={ZERO - 3} y2={ZERO + 3} />;
          return <Bar key={line.plan.id} line={line} at={at} locale={locale} />;
        })}
      </svg>
    </figure>
  );
}

interface MarkProps {
  readonly line: LineState;
  /** Per cent of the width. */
  readonly at: number;
}

/** Beside its mark, on the side that has room. */
const beside = (at: number) => (at > 60 ? ({ x: -12, textAnchor: 'end' } as const) : ({ x: 12, textAnchor: 'start' } as const));

function Next({ at }: MarkProps) {
  return (
    <svg x={percent(at)} y={ZERO}>
      <path className={on('next')} d="M0 -3L-6 -14H6Z" />
      <text y={-20} textAnchor="middle">
        {messages.bench.lines.next}
      </text>
    </svg>
  );
}

function Bar({ line: { plan, actual, contributions }, at, locale }: MarkProps & { readonly locale: string }) {
  const away = (actual - plan.target) / plan.tolerance;
  const end = y(away);
  const crossed = crossedOutAway(contributions, plan.target, plan.tolerance);
  const farthest = crossed.length === 0 ? null : Math.max(...crossed);
  const outside = Math.abs(away) > 1;
  const { said } = messages.bench.lines;
  const words = outside ? away : farthest;
  return (
    <svg x={percent(at)}>
      {farthest === null ? null : (
        <rect className={on('crossed')} x={-HALF - 1} width={2 * HALF + 2} y={y(farthest)} height={Math.abs(ZERO - y(farthest))} />
      )}
      <rect
        className={outside ? on('over') : undefined}
        x={-HALF}
        width={2 * HALF}
        y={Math.min(end, ZERO) - 0.5}
        height={Math.abs(end - ZERO) + 1}
      />
      {outside ? <path className={on('over')} d={`M${-HALF} ${end}L0 ${end + (away > 0 ? -6 : 6)}L${HALF} ${end}Z`} /> : null}
      {words === null ? null : (
        <text {...beside(at)} y={y(words) + (words > 0 ? 6 : 2)}>
          {plan.material.name}
          <tspan className={outside ? on('over') : on('quiet')} dx={6} fontWeight={outside ? 680 : undefined}>
            {outside ? said(numberText(Math.abs(away), locale, 1), away > 0) : messages.bench.lines.crossed}
          </tspan>
        </text>
      )}
    </svg>
  );
}
