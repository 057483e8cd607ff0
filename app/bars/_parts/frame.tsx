import { on } from '../../_ui/classes';

const WIDTH = 200;
const HEIGHT = 132;
const CORNER = 14;
const INSET = 10;

/** Corners of the same frame for every photograph of a lot: what fills it on one day fills it on the next. */
const corners = [
  `M${INSET} ${INSET + CORNER}V${INSET}h${CORNER}`,
  `M${WIDTH - INSET - CORNER} ${INSET}h${CORNER}v${CORNER}`,
  `M${INSET} ${HEIGHT - INSET - CORNER}v${CORNER}h${CORNER}`,
  `M${WIDTH - INSET - CORNER} ${HEIGHT - INSET}h${CORNER}v-${CORNER}`,
].join('');

/** One photograph in its frame; `null`: the frame that the next one is to fill. */
export function Frame({ sha256, alt, caption }: { readonly sha256: string | null; readonly alt: string; readonly caption: string }) {
  return (
    <figure>
      <svg
        className={on('drawing')}
        width="100%"
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        {...(sha256 === null ? { 'aria-hidden': true } : { role: 'img', 'aria-label': alt })}
      >
        {sha256 === null ? (
          <rect className={on('faint')} x={0.5} y={0.5} width={WIDTH - 1} height={HEIGHT - 1} />
        ) : (
          <image href={`/api/photos/${sha256}`} width={WIDTH} height={HEIGHT} preserveAspectRatio="xMidYMid slice" />
        )}
        <path className={on('axis')} d={corners} />
      </svg>
      <figcaption className={on('dim')}>{caption}</figcaption>
    </figure>
  );
}
