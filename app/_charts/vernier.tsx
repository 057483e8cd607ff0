import { memo, useId, useMemo } from 'react';
import type { Display } from '#lib/units/display';
import { figure, figureNumber } from '#lib/units/format';
import { NANOGRAMS_PER } from '#lib/units/mass';
import styles from './glass.module.css';
import { coarseFill, coarseOutline, fineFill, fineOutline, GLASS, notchOutline, scaleOf, silhouetteOf, ticks } from './vernier-shape';
import type { Glass, Scale, Tick } from './vernier-shape';

export interface VernierProps {
  readonly frame: keyof typeof GLASS;
  /** Milligrams. */
  readonly target: number;
  readonly tolerance: number;
  /** What is in, or `null`: not known, and hatched. */
  readonly total: number | null;
  /** Expected overshoot if the pour stopped now; places the ease-off mark. */
  readonly overshoot: number | null;
  readonly red: boolean;
  readonly display: Display;
  readonly words: { readonly whole: string; readonly last: (amount: string) => string; readonly easeOff: string; readonly unsure: string };
}

/** The fill as a vernier: a coarse column for the whole target, a fine one for the last stretch, the tolerance to scale as a notch. */
export function Vernier({ frame, target, tolerance, total, overshoot, red, display, words }: VernierProps) {
  const glass = GLASS[frame];
  const clip = useId();
  const scale = useMemo(() => scaleOf(glass, target, tolerance), [glass, target, tolerance]);
  const marks = useMemo(() => marksOf(glass, scale, target, tolerance, display), [glass, scale, target, tolerance, display]);
  const shape = silhouetteOf(total, target, tolerance);
  const fill = total === null ? null : fillOf(glass, scale, total, shape === 'brimming');
  return (
    <svg
      className={styles['glass']}
      viewBox={`0 0 ${glass.width} ${glass.height}`}
      data-shape={shape}
      data-red={red || undefined}
      aria-hidden="true"
      focusable="false"
    >
      <Lens glass={glass} scale={scale} />
      <path className={styles['cavity']} d={coarseOutline(glass, 0)} />
      <path className={styles['cavity']} d={fineOutline(glass, scale, 0)} />
      <path className={styles['etch']} d={marks.etching} />
      {fill === null ? (
        <path className={styles['unknown']} d={coarseFill(glass, glass.top) + fineFill(glass, scale, glass.top)} />
      ) : (
        <>
          <path className={fill.fine === '' ? styles['live'] : styles['rest']} d={fill.coarse} />
          <path className={styles['live']} d={fill.fine} />
          <clipPath id={clip}>
            <path d={fill.coarse + fill.fine} />
          </clipPath>
          <path className={styles['etchDark']} clipPath={`url(#${clip})`} d={marks.etching} />
          <path className={fill.fine === '' ? styles['level'] : styles['levelRest']} d={fill.coarseLevel} />
          <path className={styles['level']} d={fill.fineLevel} />
          <path className={styles['cap']} d={fill.cap} />
        </>
      )}
      <Walls glass={glass} scale={scale} />
      {overshoot === null || (total ?? 0) > target ? null : (
        <EaseOff
          glass={glass}
          y={scale.fine(target - Math.max(0, overshoot))}
          scale={scale}
          word={frame !== 'wide' ? '' : total === null ? words.unsure : words.easeOff}
          unsure={total === null}
        />
      )}
      <Labels glass={glass} scale={scale} marks={marks} words={words} />
    </svg>
  );
}

/** Outlines of what is in both columns, with their levels; empty where there is nothing to draw. */
const fillOf = (glass: Glass, scale: Scale, total: number, brimming: boolean) => {
  const { coarse, fine, inset, shoulder } = glass;
  const reached = total >= scale.stretchFrom;
  const [y, fineY] = [scale.coarse(total), scale.fine(total)];
  const reach = Math.abs(fineY - scale.datum) < scale.unit ? shoulder : 0;
  const cap = inset * 2.5;
  return {
    coarse: total > 0 ? coarseFill(glass, y) : '',
    coarseLevel: total > 0 ? `M${coarse.x + 2} ${y}H${coarse.x + coarse.width - 2}` : '',
    fine: reached ? fineFill(glass, scale, brimming ? glass.top : fineY) : '',
    fineLevel: reached && !brimming ? `M${fine.x - reach + 3} ${fineY}H${fine.x + fine.width + reach - 3}` : '',
    cap: brimming ? `M${fine.x - inset} 0h${fine.width + 2 * inset}v${cap}h${-fine.width - 2 * inset}z` : '',
  };
};

interface Part {
  readonly glass: Glass;
  readonly scale: Scale;
}

const Lens = memo(function Lens({ glass, scale }: Part) {
  const from = glass.coarse.x + glass.coarse.width + 6;
  const high = scale.coarse(scale.stretchTo);
  const low = scale.coarse(scale.stretchFrom);
  return (
    <>
      <path className={styles['lens']} d={`M${from} ${high}L${glass.fine.x} ${glass.top}V${glass.foot}L${from} ${low}Z`} />
      <path
        className={styles['lensEdge']}
        d={`M${from} ${high}L${glass.fine.x} ${glass.top}M${from} ${low}L${glass.fine.x} ${glass.foot}`}
      />
      <path className={styles['stretch']} d={`M${from} ${high}V${low}`} />
    </>
  );
});

const Walls = memo(function Walls({ glass, scale }: Part) {
  const { x } = glass.coarse;
  const lip = 8;
  return (
    <>
      <path className={styles['wall']} d={coarseOutline(glass, lip)} />
      <path className={styles['wall']} d={fineOutline(glass, scale, lip)} />
      <path className={styles['notch']} d={notchOutline(glass, scale)} />
      <path className={styles['datum']} d={`M${x - lip} ${scale.datum}H${glass.fine.x + glass.fine.width + glass.shoulder + lip}`} />
    </>
  );
});

/** Where to ease off. Hollow, and said to be unsure, while readings are late: it stands where it was last expected. */
function EaseOff(props: Part & { readonly y: number; readonly word: string; readonly unsure: boolean }) {
  const { glass, scale, y, word, unsure } = props;
  const { plain } = glass.text;
  // Beside the notch its walls and the datum would run through the word.
  const notched = y - scale.datum < scale.unit + plain / 2;
  const tip = glass.fine.x - 3;
  const size = plain * 0.5;
  return (
    <>
      <path className={styles['cue']} data-unsure={unsure || undefined} d={`M${tip} ${y}l${-size * 1.2} ${-size}v${size * 2}z`} />
      <text
        className={styles['word']}
        fontSize={size * 1.84}
        x={tip - size * 1.2 - 4}
        y={notched ? scale.datum + scale.unit + plain : y + plain * 0.32}
        textAnchor="end"
      >
        {word}
      </text>
    </>
  );
}

/** Units of the ticks: grams, or ounces for both ounce displays. */
const shownUnit = (display: Display): { readonly per: number; readonly unit: string } =>
  display.mass === 'g' ? { per: 1000, unit: 'g' } : { per: Number(NANOGRAMS_PER.oz) / 1e6, unit: 'oz' };

interface Mark {
  readonly text: string;
  readonly y: number;
}
interface Marks {
  readonly etching: string;
  readonly coarse: readonly Mark[];
  readonly fine: readonly Mark[];
  readonly target: string;
  readonly edges: readonly Mark[];
  readonly stretch: string;
}

/** Everything on the glass that a line decides and no reading changes. */
const marksOf = (glass: Glass, scale: Scale, target: number, tolerance: number, display: Display): Marks => {
  const { per, unit } = shownUnit(display);
  const { plain, strong } = glass.text;
  const coarse = ticks(0, (target * 1.25) / per, 6, 5, (value) => scale.coarse(value * per));
  const fine = ticks(scale.stretchFrom / per, scale.stretchTo / per, 4, 5, (value) => scale.fine(value * per));
  const write = (value: number, decimals: number): string => figureNumber(figure(value, decimals, '', display.locale));
  const long = glass.coarse.width * 0.42;
  const right = glass.fine.x + glass.fine.width;
  const offNotch = ({ y }: Tick): boolean => Math.abs(y - scale.datum) > scale.unit + 4;
  const etched = [
    ...coarse.map(({ y, major }) => `M${glass.coarse.x} ${y}h${major ? long : long / 2}`),
    ...fine.filter(offNotch).map(({ y, major }) => `M${right} ${y}h${major ? -long : -long / 2}`),
  ];
  const fineLabels = fine.filter(
    ({ y, major }) => major && Math.abs(y - scale.datum) > scale.unit + plain && y < glass.foot - 2 && y > glass.top + 2,
  );
  const fineDecimals = decimalsFor(fineLabels.map(({ value }) => value));
  const edges = [target + tolerance, target - tolerance].map((edge) => edge / per);
  const places = decimalsFor(edges, edgePlaces(tolerance / per));
  const stretch = (target - scale.stretchFrom) / per;
  return {
    etching: etched.join(''),
    coarse: coarse
      .filter(({ y, major, value }) => major && value > 0 && Math.abs(y - scale.datum) > strong && y > glass.top + plain * 0.4)
      .map(({ y, value }) => ({ y, text: write(value, decimalsFor([value])) })),
    fine: fineLabels.map(({ y, value }) => ({ y, text: write(value, fineDecimals) })),
    target: write(target / per, decimalsFor([target / per], 1)),
    edges: edges.map((edge, index) => ({
      y: scale.datum + (index === 0 ? -1 : 1) * scale.unit,
      // Rounded into the notch, never out of it.
      text: write((index === 0 ? Math.floor : Math.ceil)(edge * 10 ** places - (index === 0 ? -SLIGHT : SLIGHT)) / 10 ** places, places),
    })),
    stretch: `${write(stretch, decimalsFor([stretch], 1))} ${unit}`,
  };
};

const Labels = memo(function Labels({
  glass,
  scale,
  marks,
  words,
}: Part & { readonly marks: Marks; readonly words: VernierProps['words'] }) {
  const { plain, strong } = glass.text;
  const left = glass.coarse.x - 12;
  const right = glass.fine.x + glass.fine.width;
  return (
    <g className={styles['scale']}>
      {marks.coarse.map(({ text, y }) => (
        <text key={text} fontSize={plain} x={left} y={y + plain * 0.34} textAnchor="end">
          {text}
        </text>
      ))}
      <text
        className={styles['target']}
        fontSize={fit(marks.target, strong, left + glass.free)}
        x={left}
        y={scale.datum + strong * 0.34}
        textAnchor="end"
      >
        {marks.target}
      </text>
      {marks.fine.map(({ text, y }) => (
        <text key={text} fontSize={plain} x={right + 10} y={y + plain * 0.34}>
          {text}
        </text>
      ))}
      {marks.edges.map(({ text, y }) => (
        <text
          key={y}
          fontSize={fit(text, plain, glass.width - right - glass.shoulder - 8 + glass.free)}
          x={right + glass.shoulder + 8}
          y={y + plain * 0.34}
        >
          {text}
        </text>
      ))}
      <text
        className={styles['word']}
        fontSize={plain}
        x={glass.coarse.x + glass.coarse.width / 2}
        y={glass.height - 3}
        textAnchor="middle"
      >
        {words.whole}
      </text>
      <text className={styles['word']} fontSize={plain} x={glass.fine.x + glass.fine.width / 2} y={glass.height - 3} textAnchor="middle">
        {words.last(marks.stretch)}
      </text>
    </g>
  );
});

/** A size at which a text of the figure face fits. */
const fit = (text: string, size: number, room: number): number => Math.min(size, room / (0.562 * text.length));

const SLIGHT = 1e-6;
/** Digits that tell the edges of a tolerance apart, in the unit shown: more than that no scale shows either. */
const edgePlaces = (tolerance: number): number => (tolerance >= 0.5 ? 1 : tolerance >= 0.05 ? 2 : 3);

/** Digits these values need, at most `most`. */
const decimalsFor = (values: readonly number[], most = 3): number => {
  for (let digits = 0; digits < most; digits += 1)
    if (values.every((value) => Math.abs(value - Number(value.toFixed(digits))) < 1e-6)) return digits;
  return most;
};
