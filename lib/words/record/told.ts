import { numberText } from '#lib/units/format';
import { showIn } from '../quantities';
import { stepsOf } from '../review/line';
import { storyWords } from '../review/messages-story';
import type { Facts } from '../review/messages-story';
import type { Told } from '../review/told';
import type { BatchReview } from '#lib/work/batch/index';
import type { Display } from '#lib/units/display';
import type { InstrumentId } from '#lib/units/id';
import type { Sentence } from '../sentence';
import { clockText, dateText } from '../times';
import type { RecordFacts } from './facts';
import type { ToldEvent } from './sheet';

/** What the sentence of one event is made from. */
export const factsOf = (
  { params, answer }: Pick<Told, 'params' | 'answer'>,
  review: Pick<BatchReview, 'lines' | 'joining'>,
  display: Display,
  instrument: (id: string) => string,
): Facts => {
  const line = review.lines.find((one) => one.line === params['line']) ?? null;
  const { over, net } = params;
  return {
    params,
    show: showIn(display),
    step: line === null ? null : stepsOf(line, display).weighed,
    instrument,
    typed: line?.contributions.find((one) => one.net === net)?.how === 'typed',
    byHand: review.joining?.byHand ?? [],
    answer: answer?.code ?? null,
    away: line === null || typeof over !== 'number' ? null : numberText(over / line.tolerance, display.locale, 1),
  };
};

/** The story as it is printed: each event with who and when. */
/** The day an event is of, where the one before it was on another: what is said afterwards comes days later. `null`: the same day. */
export const newDay = (event: Pick<Told, 'wall' | 'offsetMin'>, before: Pick<Told, 'wall' | 'offsetMin'> | undefined, locale: string) => {
  const day = ({ wall, offsetMin }: Pick<Told, 'wall' | 'offsetMin'>): string => dateText(wall, { offsetMin, locale });
  return before === undefined || day(before) === day(event) ? null : day(event);
};

/** With its day before it. */
export const onDay = (day: string | null, sentence: Sentence): Sentence => (day === null ? sentence : [`${day}: `, ...sentence]);

export const toldEvents = (story: readonly Told[], { review, display, instrumentName, personName }: RecordFacts): readonly ToldEvent[] =>
  story.map((event, at) => {
    const { head, rest } = storyWords[event.code](factsOf(event, review, display, (id) => instrumentName(id as InstrumentId)));
    return {
      letter: event.letter,
      at: clockText(event.wall, { offsetMin: event.offsetMin, locale: display.locale }),
      by: event.via === 'screen' ? personName(event.by) : '',
      head: onDay(newDay(event, story[at - 1], display.locale), head),
      rest,
    };
  });
