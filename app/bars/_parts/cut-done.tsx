'use client';
import { numberText } from '#lib/units/format';
import { dateText } from '#lib/words/times';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { lotMessages } from '../messages-lot';
import type { LotProps } from './lot-props';
import { isThrownAway } from './stage';
import { Trims } from './trims';
import { useWant } from './use-want';

const UM = 1000;

/** How it was cut, and what finishing took. A cut that nothing rests on yet can be crossed out. */
export function CutDone({ page, again }: LotProps) {
  const { row, state } = page;
  const { locale } = useDisplay();
  const wanting = useWant(row, again);
  const { cut: words } = lotMessages;
  const { cut } = state;
  if (cut === null) return null;
  const free =
    state.weights.every(({ struck, for: purpose }) => struck !== null || purpose === 'mass') && state.counts.shelf === state.counts.made;
  const thrown = isThrownAway(row);
  const when = dateText(cut.wall, { offsetMin: cut.offsetMin, locale });
  const crossOut = () => wanting.want({ kind: 'correct', entry: cut.entry, reason: 'mistyped', note: '' });
  return (
    <PaperSection name={words.title}>
      <p className={on('reading')}>
        {thrown ? words.lost(when) : words.done(cut.count, when, cut.cutter.name)}{' '}
        {cut.thickness === null ? null : words.thick(numberText(cut.thickness / UM, locale, 2))}{' '}
        {cut.ends + cut.testers === 0 ? null : words.aside(cut.ends, cut.testers)}
      </p>
      {free ? (
        <p>
          <button type="button" className={on('link')} disabled={wanting.busy} onClick={() => void crossOut()}>
            {thrown ? words.notLost : words.wrong}
          </button>
        </p>
      ) : null}
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
      {cut.count === 0 ? null : <Trims page={page} again={again} />}
    </PaperSection>
  );
}
