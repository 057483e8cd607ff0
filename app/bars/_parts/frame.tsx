import type { ReactNode } from 'react';
import { on } from '../../_ui/classes';

/** Of every photograph of a lot: what fills it on one day fills it on the next. */
export const FRAME = { width: 200, height: 132 } as const;
const { width: WIDTH, height: HEIGHT } = FRAME;
const CORNER = 14;
const INSET = 10;

const corners = [
  `M${INSET} ${INSET + CORNER}V${INSET}h${CORNER}`,
  `M${WIDTH - INSET - CORNER} ${INSET}h${CORNER}v${CORNER}`,
  `M${INSET} ${HEIGHT - INSET - CORNER}v${CORNER}h${CORNER}`,
  `M${WIDTH - INSET - CORNER} ${HEIGHT - INSET}h${CORNER}v-${CORNER}`,
].join('');

interface Props {
  /** Address of its picture; `null`: the frame alone, over whatever stands behind it. */
  readonly href: string | null;
  readonly alt: string;
  /** The picture lets what is behind it through. */
  readonly pale?: boolean;
}

/** A picture behind the four corners that it is to fill. */
export function Framed({ href, alt, pale = false }: Props) {
  return (
    <svg
      className={on('drawing')}
      width="100%"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      {...(alt === '' ? { 'aria-hidden': true } : { role: 'img', 'aria-label': alt })}
    >
      {href === null ? (
        <rect className={on('faint')} x={0.5} y={0.5} width={WIDTH - 1} height={HEIGHT - 1} />
      ) : (
        <image href={href} width={WIDTH} height={HEIGHT} preserveAspectRatio="xMidYMid slice" opacity={pale ? 0.35 : 1} />
      )}
      <path className={on('axis')} d={corners} />
    </svg>
  );
}

/** One photograph in its frame, what is said of it below. */
export function Frame({ href, alt, children }: Omit<Props, 'pale'> & { readonly children: ReactNode }) {
  return (
    <figure>
      <Framed href={href} alt={alt} />
      <figcaption className={on('dim')}>{children}</figcaption>
    </figure>
  );
}

export const photoAddress = (sha256: string): string => `/api/photos/${sha256}`;
