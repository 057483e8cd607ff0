'use client';
import type { AsPoured } from '#lib/work/batch/poured/types';
import { lyeVerdict } from '#lib/work/batch/poured/as-poured';
import type { Display } from '#lib/units/display';
import { figure, figureNumber, shareText } from '#lib/units/format';
import { useDisplay } from '../../_live/use';
import { potWords } from '../messages-pot';
import styles from '../work.module.css';
import { openSheet } from './controls';
import { usePot } from './use-pot';

const MILLION = 1e6;

/** Points with one digit, without a unit: beside a figure in per cent. */
export const pointsText = (fraction: number, { locale }: Display): string => figureNumber(figure(100 * fraction, 1, '', locale));
export const percentText = (fraction: number, display: Display): string => shareText(MILLION * fraction, display);

/** A word only where it matters: below zero, perhaps below zero, or a result outside the formula's limits. */
const flagOf = (pot: AsPoured): string | null => {
  const verdict = lyeVerdict(pot);
  if (verdict === 'heavy') return potWords.heavy;
  return verdict === 'may-be-heavy' || pot.limits.some((one) => one.verdict === 'outside') ? potWords.check : null;
};

/** One calm line of what the pot is now; it opens to its workings. */
export function PotLine() {
  const display = useDisplay();
  const pot = usePot();
  if (pot === null) return null;
  if (pot.kind !== 'figures') return <Pot flag={null}>{potWords.unworked[pot.kind]}</Pot>;
  const { superfat } = pot;
  if (superfat === null) return null;
  const flag = flagOf(pot);
  const value = percentText(superfat.working, display);
  return (
    <Pot flag={flag}>
      {flag === potWords.heavy ? potWords.bare(value) : potWords.line(value, pointsText((superfat.high - superfat.low) / 2, display))}
    </Pot>
  );
}

function Pot({ flag, children }: { readonly flag: string | null; readonly children: string }) {
  return (
    <button
      type="button"
      className={`${styles['sub']} ${styles['pot']}`}
      data-pot={flag ?? ''}
      title={potWords.open}
      onClick={() => openSheet('pot')}
    >
      {/* Other words are another element: what is set anew at the right edge has not moved. */}
      <span key={`${children} ${flag}`}>
        {children}
        {flag === null ? null : <b> {flag}</b>}
      </span>
    </button>
  );
}
