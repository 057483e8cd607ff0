'use client';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../_live/use';
import { showIn } from '#lib/words/quantities';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { useSheet } from './use-sheet';
import { Figure, Slip } from './workings';

/** What the certificates allow of all fragrance together, and what of it has to be named on the label. */
export function FragranceLimits() {
  const { plan, formula } = useSheet();
  const display = useDisplay();
  const { locale } = display;
  const show = showIn(display);
  if (plan === null || !formula.entries.some(({ part }) => part === 'fragrance')) return null;
  const { verdict, allergens } = plan.figures.fragrance;
  const scents = new Set(formula.entries.flatMap(({ id, part }) => (part === 'fragrance' ? [id] : [])));
  const grams = plan.lines.reduce((sum, one) => sum + (scents.has(one.entry) ? one.grams : 0), 0);
  const { blend } = messages;
  return (
    <>
      {verdict.kind === 'not-known' ? (
        <p>{verdict.without.length === 0 ? null : blend.notKnown(verdict.without.join(', '))}</p>
      ) : (
        <>
          <p className={on(verdict.kind === 'over' ? 'warn' : 'reading')}>
            {blend.sum} <Figure of="fragrance-limit">{numberText(verdict.sum, locale, 2)}</Figure> {blend.most[0]}{' '}
            <Figure of="fragrance-most">{show.mass(Math.round(1000 * verdict.most * grams), 10)}</Figure> {blend.most[1]}
          </p>
          <Slip ids={['fragrance-limit', 'fragrance-most']} />
        </>
      )}
      {allergens.length === 0 ? null : (
        <>
          <p className={on('dim')}>
            {blend.allergens}:{' '}
            {allergens.map(({ name, share, declared }, at) => (
              <span key={name}>
                {at === 0 ? null : '; '}
                {name} <Figure of={`allergen:${name}`}>{numberText(100 * share, locale, 3)} %</Figure>
                {declared ? `, ${blend.declared}` : ''}
              </span>
            ))}
          </p>
          <Slip ids={allergens.map(({ name }) => `allergen:${name}`)} />
        </>
      )}
    </>
  );
}
