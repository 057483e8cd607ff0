import { on } from '../../_ui/classes';

const WIDTH = 7;
const HEIGHT = 12;
const GAP = 2;
/** More are drawn smaller. */
const ROOM = 24;

/** A bar for each that was made: those left are full, those gone are outlines. */
export function BarMarks({ left, made, label }: { readonly left: number; readonly made: number; readonly label: string }) {
  const width = made > ROOM ? Math.max(2, (WIDTH * ROOM) / made) : WIDTH;
  const step = width + GAP;
  return (
    <svg className={on('drawing')} width={made * step} height={HEIGHT} role="img" aria-label={label}>
      {Array.from({ length: made }, (_, at) => (
        <rect
          // A bar has no name of its own: its place is all there is.
          // oxlint-disable-next-line react/no-array-index-key
          key={at}
          className={at < left ? undefined : on('axis')}
          x={at * step + 0.5}
          y={0.5}
          width={width - 1}
          height={HEIGHT - 1}
        />
      ))}
    </svg>
  );
}
