'use client';
import { useDeferredValue, useMemo } from 'react';
import { numberText } from '#lib/units/format';
import { copyCard, withCatalogue } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { PaperSection } from '../../_ui/section';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { OwnWorkings } from './own-workings';
import { useSheet } from './use-sheet';
import { Figure, Slip } from './workings';

/** A recipe as it stands on paper: what its own hydroxide and water really give, unfinished as it may be. */
export function CardSection() {
  const { formula, workshop } = useSheet();
  const { locale } = useDisplay();
  const later = useDeferredValue(formula);
  const own = later.entries.some(({ part, amount }) => part === 'alkali' && amount !== null && amount.kind !== 'rest');
  const card = useMemo(() => (own ? copyCard(later, withCatalogue(workshop.context)) : null), [own, later, workshop]);
  if (card === null) return null;
  const { card: words } = messages;
  const percent = (value: number): string => numberText(100 * value, locale, 1);
  const { superfat, claimed, lyeConcentration, unweighed } = card;
  return (
    <OwnWorkings derivations={card.derivations}>
      <PaperSection name={words.title} note={<p>{words.note}</p>}>
        {superfat === null ? (
          <p>{words.unknown}</p>
        ) : (
          <p className={on(superfat.working < 0 ? 'lead warn' : 'lead')}>
            {words.gives} <Figure of="superfat">{percent(superfat.working)} %</Figure>
            {words.within(percent(superfat.low), percent(superfat.high))}
          </p>
        )}
        {claimed === null ? null : <p>{words.claims(percent(claimed))}</p>}
        {lyeConcentration === null ? null : (
          <p>
            {words.lye[0]} <Figure of="lye-concentration">{percent(lyeConcentration)} %</Figure> {words.lye[1]}
          </p>
        )}
        <Slip ids={['superfat', 'lye-concentration']} />
        {unweighed.map(({ entry, text }) => (
          <p key={entry}>{words.unweighed(text)}</p>
        ))}
      </PaperSection>
    </OwnWorkings>
  );
}
