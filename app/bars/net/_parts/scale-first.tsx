import type { Route } from 'next';
import Link from 'next/link';
import { checkScale, checkScaleByHandbook, type ScaleCheck } from '#lib/soap/net/index';
import { numberText } from '#lib/units/format';
import { shortMoment } from '#lib/words/times';
import type { MassWeighed } from '#lib/work/bars/net-weights';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { TextField } from '../../../_ui/fields';
import { Measured } from '../../../_ui/figures';
import { PaperSection } from '../../../_ui/section';
import { CrossLast } from '../../_parts/cross-last';
import type { Wanting } from '../../_parts/use-want';
import { messages } from '../messages';
import { gramsIn } from './steps';
import { figureOf, type NetTyped } from './typed';

/**
 * Of a known mass as the scale told it, else as typed; a step nobody knows leaves it unknown, as does a mass on another scale than the bars'.
 * `step`: of the scale that told the weights, grams.
 */
export const scaleChecked = (
  typed: NetTyped,
  step: number | null,
  nominal: number,
  weighed: MassWeighed | null,
): { readonly average: ScaleCheck; readonly handbook: ScaleCheck | null } => {
  const { known, shown, own } = weighed === null ? handOf(typed, step) : { ...weighed, own: Math.max(weighed.step, step ?? 0) };
  const sound = own !== null && own > 0 && known !== null && shown !== null && known > 0 && !Number.isNaN(shown);
  const scale = sound && weighed?.same !== false ? { step: own, off: shown - known } : { step: 1, off: null };
  return { average: checkScale(scale, nominal), handbook: checkScaleByHandbook(scale, nominal) };
};

const handOf = (typed: NetTyped, step: number | null) => ({
  known: figureOf(typed.known),
  shown: figureOf(typed.shown),
  own: figureOf(typed.step) ?? step,
});

interface Props {
  readonly id: string;
  readonly check: ReturnType<typeof scaleChecked>;
  readonly step: number | null;
  readonly nominal: number;
  readonly weighed: MassWeighed | null;
  readonly typed: NetTyped;
  readonly onTyped: (change: Partial<NetTyped>) => void;
  readonly wanting: Wanting;
}

const BY_HAND = ['shown', 'step'] as const;
/** A mass so many times as heavy as a bar, or so many times lighter, says little of the scale at a bar. Ours. */
const FAR = 2;
const MG = 1000;

/** Whether the scale may check such bars at all: a known mass put on it hands-free, or what it showed typed. */
export function ScaleFirst({ id, check: { average, handbook }, step, nominal, weighed, typed, onTyped, wanting }: Props) {
  const g = gramsIn(useDisplay().locale);
  const { scale: words, lot } = messages;
  const said = ({ verdict, error, most }: ScaleCheck): string => words.verdicts[verdict](g(error ?? 0), g(most));
  const known = figureOf(typed.known);
  const used = weighed?.known ?? known;
  const field = (key: 'known' | (typeof BY_HAND)[number]) => (
    <TextField
      key={key}
      id={`net-${key}`}
      label={words[key]}
      numeric
      value={typed[key]}
      hint={key === 'step' && step !== null ? g(step) : ''}
      error={Number.isNaN(figureOf(typed[key]) ?? 0) ? lot.wrong.number : ''}
      onChange={(value) => onTyped({ [key]: value })}
    />
  );
  const far = used !== null && used > 0 && (used > FAR * nominal || FAR * used < nominal);
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      {weighed === null ? null : <Weighed weighed={weighed} wanting={wanting} />}
      <div className={on(weighed === null ? 'form' : 'form gap')}>
        {field('known')}
        {weighed === null ? BY_HAND.map(field) : null}
      </div>
      <div className={on('acts')}>
        {known !== null && known > 0 ? (
          <Link
            className={on('act')}
            href={`/bench/bars?id=${encodeURIComponent(id)}&known=${Math.round(known * MG)}` as Route}
            prefetch={false}
          >
            {weighed === null ? words.put : words.again}
          </Link>
        ) : (
          <span className={on('dim')}>{words.say}</span>
        )}
      </div>
      <p className={on('gap')}>
        <b>{said(average)}</b> {average.verdict === 'not-known' ? null : words.how} {far ? words.far : null}
      </p>
      {handbook === null || handbook.verdict === 'not-known' ? null : (
        <p>
          {words.handbook}: {said(handbook)}
        </p>
      )}
    </PaperSection>
  );
}

/** As many decimals as the scale's step has. */
const placesOf = (step: number): number => Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));

/** What the scale told of the known mass. */
function Weighed({ weighed, wanting }: { readonly weighed: MassWeighed; readonly wanting: Wanting }) {
  const { locale } = useDisplay();
  const g = gramsIn(locale);
  const { scale: words } = messages;
  return (
    <p>
      {words.weighed(g(weighed.known))} <Measured>{numberText(weighed.shown, locale, placesOf(weighed.step))}</Measured>{' '}
      {words.when(shortMoment(weighed.wall, { offsetMin: weighed.offsetMin, locale }), g(weighed.step))}{' '}
      {weighed.same ? null : <b>{words.other}</b>} <CrossLast last={weighed} wanting={wanting} words={words.cross} />
    </p>
  );
}
