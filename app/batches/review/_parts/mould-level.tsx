import { on } from './classes';

const W = 44;
const H = 22;
const BESIDE = { display: 'inline', verticalAlign: '-0.25em' };

/** A mould from the side: its walls, its brim, and how high the batter stands; over the brim it rises above it. */
export function MouldLevel({ full, label }: { readonly full: number; readonly label: string }) {
  const height = Math.min(1.25, full) * H;
  return (
    <svg className={on('drawing')} width={W} height={H} style={BESIDE} role="img" aria-label={label}>
      <rect className={full > 1 ? on('over') : on('oils')} x={1} width={W - 2} y={H - height} height={height} />
      <path className={on('axis')} d={`M0.5 0V${H - 0.5}H${W - 0.5}V0`} />
      <line className={on('faint')} x1={0} x2={W} y1={0.5} y2={0.5} />
    </svg>
  );
}
