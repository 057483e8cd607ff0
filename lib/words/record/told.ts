import { numberText } from '#lib/units/format';
import { showIn } from '../quantities';
import { stepsOf } from '../review/line';
import { storyWords } from '../review/messages-story';
import type { Facts } from '../review/messages-story';
import type { Told } from '../review/told';
import type { BatchReview } from '#lib/work/batch/index';
import type { Display } from '#lib/units/display';
import type { InstrumentId } from '#lib/units/id';
import { clockText } from '../times';
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
export const toldEvents = (story: readonly Told[], { review, display, instrumentName, personName }: RecordFacts): readonly ToldEvent[] =>
  story.map((event) => ({
    letter: event.letter,
    at: clockText(event.wall, { offsetMin: event.offsetMin, locale: display.locale }),
    by: event.via === 'screen' ? personName(event.by) : '',
    ...storyWords[event.code](factsOf(event, review, display, (id) => instrumentName(id as InstrumentId))),
  }));
