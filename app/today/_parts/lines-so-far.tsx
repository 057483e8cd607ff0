import { scaleLinear, scalePoint } from 'd3-scale';
import type { BatchState, LineState } from '#lib/work/batch/index';
import { messages } from '../messages';

const HEIGHT = 168;
/** A difference of this many tolerances reaches the edge; more has a tip. */
const EDGE = 3;
const y = scaleLinear([-EDGE, EDGE], [HEIGHT - 28, 16]).clamp(true);
const percent = (value: number): string => `${value}%`;

/** Every line in its order of work: weighed ones as bars up or down from their target, in tolerances; what is next, and what waits. */
export function LinesSoFar({ batch }: { readonly batch: BatchState }) {
  const lines = batch.order.flatMap((id) => batch.lines[id] ?? []);
  const x = scalePoint(
    lines.map(({ plan }) => plan.id as string),
    [12, 96],
  );
  const { lines: words } = messages.bench;
  return (
    <figure>
      <svg width="100%" height={HEIGHT} aria-hidden="true">
        <rect className="band" x="0" width="100%" y={y(1)} height={y(-1) - y(1)} />
        <text className="dim" x="0" dx={6} y={y(1) - 6}>
          {words.over}
        </text>
        <text className="dim" x="0" dx={6} y={y(-1) + 16}>
          {words.short}
        </text>
        <text className="dim" x="100%" dx={-6} y={y(-1) - 6} textAnchor="end">
          {words.within}
        </text>
        <line className="axis" x1="0" x2="100%" y1={y(0)} y2={y(0)} />
        {lines.map((line) => (
          <Line
            key={line.plan.id}
            line={line}
            at={percent(x(line.plan.id) ?? 0)}
            next={batch.open === line.plan.id}
            left={(x(line.plan.id) ?? 0) > 60}
          />
        ))}
      </svg>
    </figure>
  );
}

function Line({ line, at, next, left }: { readonly line: LineState; readonly at: string; readonly next: boolean; readonly left: boolean }) {
  const { plan, actual, status } = line;
  if (next)
    return (
      <svg x={at} y={y(0)} overflow="visible">
        <path className="next" d="M0 -3L-6 -14H6Z" />
        <text y={-20} textAnchor="middle">
          {messages.bench.lines.next}
        </text>
      </svg>
    );
  if (status !== 'closed') return <line className="axis" x1={at} x2={at} y1={y(0) - 3} y2={y(0) + 3} />;
  const away = (actual - plan.target) / plan.tolerance;
  const end = y(away);
  const outside = Math.abs(away) > 1;
  return (
    <svg x={at} overflow="visible">
      <rect className={outside ? 'over' : undefined} x={-5} width={10} y={Math.min(end, y(0)) - 0.5} height={Math.abs(end - y(0)) + 1} />
      {outside ? <path className="over" d={`M-5 ${end}L0 ${end + (away > 0 ? -5 : 5)}L5 ${end}Z`} /> : null}
      {outside ? (
        <text x={left ? -10 : 10} y={end + (away > 0 ? 6 : 2)} textAnchor={left ? 'end' : 'start'}>
          {plan.material.name}
        </text>
      ) : null}
    </svg>
  );
}
