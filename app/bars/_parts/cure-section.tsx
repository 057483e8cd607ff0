'use client';
import { LAST_DAY, weightOn } from '#lib/soap/shrink/index';
import { shortDate } from '#lib/words/times';
import { sinceCut } from '#lib/work/bars/cure';
import type { Unfollowed } from '#lib/work/bars/cure';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import type { Cure } from '../../_ui/cure/use-cure';
import { Asking } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { lotMessages } from '../messages-lot';
import { barMass } from './bar-mass';
import { CureChart } from './cure-chart';

const DAY_MS = 86_400_000;

/** How the bars lose weight, with the day they will be ready and what it may miss by; the model is named. */
export function CureSection({ cure, now }: { readonly cure: Cure | Unfollowed; readonly now: number | null }) {
  const display = useDisplay();
  const { locale } = display;
  const mass = barMass(display);
  const { cure: words } = lotMessages;
  if (typeof cure === 'string')
    return (
      <PaperSection name={words.title}>
        <p>{words.why[cure]}</p>
      </PaperSection>
    );
  const { followed, forecast } = cure;
  if (forecast === undefined)
    return (
      <PaperSection name={words.title}>
        <Asking />
      </PaperSection>
    );
  if (forecast === null)
    return (
      <PaperSection name={words.title}>
        <p className={on('warn')}>{words.unsound}</p>
      </PaperSection>
    );
  const { next } = forecast;
  const end = weightOn(forecast, LAST_DAY, sinceCut(followed, forecast).cutWeight);
  return (
    <PaperSection
      name={words.title}
      note={
        <>
          <p>{words.model(forecast.learnedFrom)}</p>
          <p>{words.pale}</p>
          <p>{words.similar}</p>
          {followed.basis === 'late' ? <p>{words.late}</p> : null}
          {followed.basis === 'expected' ? <p>{words.expected}</p> : null}
        </>
      }
    >
      {now === null ? null : <CureChart followed={followed} forecast={forecast} now={now} />}
      <p className={on('gap')}>
        {words.inTheEnd(LAST_DAY, mass.text(end.low), mass.text(end.high), mass.unit)}{' '}
        {next === null ? words.noNext : words.next(shortDate(followed.from + next.day * DAY_MS, { offsetMin: null, locale }))}
      </p>
    </PaperSection>
  );
}
