'use client';
import { numberText } from '#lib/units/format';
import { mouldVolume, numberOf } from '#lib/work/formula/index';
import type { Mould, MouldFill } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { useSheet } from './use-sheet';

/** One opening as seen from the side, mm. */
export interface Side {
  readonly width: number;
  readonly depth: number;
  readonly drawn: number;
  /** Its shape is not known: a cube that holds as much. */
  readonly cube: boolean;
}

/** Cavities drawn of a tray: enough to show that it is one. */
const SHOWN = 3;
const WIDEST = 520;
const BETWEEN = 8;
const ROOM = 20;
const MM_PER_CM = 10;

/** What is known of a mould from the side; of one measured by its water a cube for each cavity. `null` where a length is none. */
export const sideOf = (mould: Mould): Side | null => {
  const { shape } = mould;
  if (shape.kind === 'water-fill') {
    const volume = mouldVolume(mould);
    if (volume === null) return null;
    const edge = MM_PER_CM * Math.cbrt(volume.value / shape.cavities);
    return { width: edge, depth: edge, drawn: Math.min(SHOWN, shape.cavities), cube: true };
  }
  if (shape.kind === 'tray') {
    const one = sideOf({ ...mould, shape: shape.cavity });
    return one === null ? null : { ...one, drawn: Math.min(SHOWN, shape.cavities) };
  }
  const [width, depth] = shape.kind === 'box' ? [shape.length, shape.depth] : [shape.diameter, shape.length];
  const [w, d] = [numberOf(width), numberOf(depth)];
  return w === null || d === null || w <= 0 || d <= 0 ? null : { width: w, depth: d, drawn: 1, cube: false };
};

const breadth = ({ width, drawn }: Side): number => drawn * width + (drawn - 1) * BETWEEN;

/** The moulds from the side, one scale for all, each as full as it will be. */
export function MouldDrawing() {
  const { plan, workshop } = useSheet();
  const { locale } = useDisplay();
  const drawn = (plan?.sizing?.moulds ?? []).flatMap((fill, at) => {
    const mould = workshop.context.moulds.find(({ id }) => id === fill.mould);
    const side = mould === undefined ? null : sideOf(mould);
    return mould === undefined || side === null ? [] : [{ fill, mould, side, at }];
  });
  if (drawn.length === 0) return null;
  const scale = Math.min(1, WIDEST / Math.max(...drawn.map(({ side }) => breadth(side))));
  return (
    <>
      <div className={on('moulds gap')}>
        {drawn.map(({ fill, mould, side, at }) => (
          <MouldSide key={at} fill={fill} mould={mould} side={side} scale={scale} locale={locale} />
        ))}
      </div>
      {drawn.some(({ side }) => side.cube) ? <p className={on('dim')}>{messages.moulds.cube}</p> : null}
    </>
  );
}

interface SideProps {
  readonly fill: MouldFill;
  readonly mould: Mould;
  readonly side: Side;
  /** Units of the drawing to a millimetre. */
  readonly scale: number;
  readonly locale: string;
}

function MouldSide({ fill, mould, side, scale, locale }: SideProps) {
  const [w, d] = [side.width * scale, side.depth * scale];
  const full = Math.min(1.04, fill.full) * d;
  const words = messages.moulds.full(numberText(100 * fill.full, locale));
  const width = Math.max(breadth({ ...side, width: w }), 90);
  return (
    <svg
      className={on('drawing')}
      width={width}
      height={d + 2 * ROOM}
      viewBox={`-1 0 ${width + 2} ${d + 2 * ROOM}`}
      role="img"
      aria-label={`${mould.name}: ${words}`}
      data-side={side.cube ? 'cube' : 'side'}
    >
      {Array.from({ length: side.drawn }, (_, at) => at * (w + BETWEEN)).map((x) => (
        <g key={x} transform={`translate(${x} ${ROOM})`}>
          <path className={on('band')} d={`M0 ${d - full}H${w}V${d}H0Z`} />
          <path className={on(fill.verdict === 'over' ? 'crossed' : 'faint')} d={`M0 ${d - full}H${w}`} />
          <path className={on(side.cube ? 'faint' : 'axis')} d={`M0 0V${d}H${w}V0`} />
        </g>
      ))}
      <text y={ROOM - 6}>{words}</text>
      <text className={on('quiet')} y={d + ROOM + 16}>
        {mould.name}
      </text>
    </svg>
  );
}
