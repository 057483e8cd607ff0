import type { CureForecast } from '#lib/soap/shrink/index';
import { SIMILAR_DAY } from '#lib/soap/shrink/index';
import { labelItCarries } from '#lib/soap/net/index';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { Choice } from '../../../_ui/fields';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../messages';
import { gramsIn } from './steps';
import type { NetTyped } from './typed';

const CONFIDENCES = [
  ['0.9', '90 %'],
  ['0.95', '95 %'],
  ['0.99', '99 %'],
] as const;
const DAYS = [60, 90, 120];

interface Props {
  readonly weights: readonly number[];
  readonly lot: number;
  readonly typed: NetTyped;
  readonly onTyped: (change: Partial<NetTyped>) => void;
  /** Of their cure, and the day it is; `null`: nothing is known of it. */
  readonly cure: { readonly forecast: CureForecast; readonly today: number } | null;
}

/** What is left at least of today's weight on a later day. */
const leftOn = ({ forecast: { loss }, today }: NonNullable<Props['cure']>, day: number): number => {
  const [now, then] = [loss[today], loss[day]];
  return now === undefined || then === undefined ? 1 : Math.min(1, (1 - then.high) / (1 - now.middle));
};

/** The heaviest label this lot could carry, now or after what it still loses. */
export function CarriesSection({ weights, lot, typed, onTyped, cure }: Props) {
  const g = gramsIn(useDisplay().locale);
  const { carries: words } = messages;
  const days = cure === null ? [] : DAYS.filter((day) => day > cure.today);
  const named = (day: number): string => (day >= SIMILAR_DAY ? `${words.day(day)}, ${words.similar}` : words.day(day));
  const untils = [['now', words.now], ...days.map((day) => [String(day), named(day)])] as [string, string][];
  const until = untils.some(([one]) => one === typed.until) ? typed.until : 'now';
  const left = cure === null || until === 'now' ? 1 : leftOn(cure, Number(until));
  const carried = labelItCarries({ weights, lot, confidence: Number(typed.confidence), left, step: 1 });
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      <div className={on('form')}>
        <Choice
          id="net-confidence"
          label={words.confidence}
          value={typed.confidence}
          options={CONFIDENCES}
          onChange={(confidence) => onTyped({ confidence })}
        />
        <Choice id="net-until" label={words.until} value={until} options={untils} onChange={(value) => onTyped({ until: value })} />
      </div>
      {carried === null ? (
        <p className={on('gap')}>{words.none}</p>
      ) : (
        <>
          <p className={on('lead')}>{words.is(g(carried.label))}</p>
          <p>
            {words.by[carried.by](g(carried.mean))} {words.lightest(g, carried.lightest.most)} {carried.whole ? words.whole : ''}
          </p>
        </>
      )}
    </PaperSection>
  );
}
