import type { CuredFit } from '#lib/soap/cut';
import { on } from '../../_ui/classes';
import { lotMessages } from '../messages-lot';

const HEIGHT = 30;
const percent = (value: number): string => `${value}%`;

/** One way to cut the log, to scale: bars, the ends hatched by an outline, and the cuts between them. */
export function FitDrawing({ fit, length, label }: { readonly fit: CuredFit; readonly length: number; readonly label: string }) {
  const scale = 100 / length;
  const first = fit.ends.length === 2 ? (fit.ends[0] ?? 0) : 0;
  const kerf = fit.cuts === 0 ? 0 : fit.lost / fit.cuts;
  const from = first + (fit.ends.length === 2 ? kerf : 0);
  return (
    <svg className={on('drawing')} width="100%" height={HEIGHT} style={{ verticalAlign: 'middle' }} role="img" aria-label={label}>
      <rect className={on('faint')} x="0" y={0.5} width="100%" height={HEIGHT - 1} />
      {Array.from({ length: fit.bars }, (_, at) => (
        // A bar has no name before it is cut: its place is all there is.
        // oxlint-disable-next-line react/no-array-index-key
        <g key={at}>
          <rect
            className={on('band')}
            x={percent((from + at * (fit.thickness + kerf)) * scale)}
            y={1}
            width={percent(fit.thickness * scale)}
            height={HEIGHT - 2}
          />
          <rect
            className={on('axis')}
            x={percent((from + at * (fit.thickness + kerf)) * scale)}
            y={0.5}
            width={percent(fit.thickness * scale)}
            height={HEIGHT - 1}
          />
        </g>
      ))}
      {fit.ends.map((end, at) => (
        <text
          // oxlint-disable-next-line react/no-array-index-key
          key={at}
          className={on('quiet roomy')}
          x={percent((fit.ends.length === 2 && at === 0 ? end / 2 : length - end / 2) * scale)}
          y={HEIGHT / 2 + 4}
          textAnchor="middle"
        >
          {end * scale < 5 ? '' : lotMessages.cut.end}
        </text>
      ))}
    </svg>
  );
}
