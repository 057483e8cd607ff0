'use client';
import type { BatchPage } from '#lib/protocol/http';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../../_live/use';
import { PaperSection } from '../../../_ui/paper';
import { showIn } from '../../../_ui/quantities';
import { capital } from '../../../_ui/words';
import { clockText } from '../../../_ui/times';
import { messages } from '../messages';
import { storyWords } from '../messages-story';
import type { Facts } from '../messages-story';
import { stepOfLine } from './model';
import type { Told } from './model';
import type { NameOf } from './review-page';

interface Props {
  readonly review: BatchPage;
  readonly story: readonly Told[];
  readonly nameOf: NameOf;
}

/** What happened, in the order of the record. Departures from the plan are bold and carry the letter that stands in their line's row. */
export function Story({ review, story, nameOf }: Props) {
  const display = useDisplay();
  const show = showIn(display);
  const lines = new Map(review.lines.map((line) => [line.line as string, line] as const));
  const factsOf = ({ params, answer }: Told): Facts => {
    const line = lines.get(String(params['line']));
    const over = params['over'];
    return {
      params,
      show,
      step: line === undefined ? null : stepOfLine(line),
      instrument: nameOf,
      answer: answer?.code ?? null,
      away: line === undefined || typeof over !== 'number' ? null : numberText(over / line.tolerance, display.locale, 1),
    };
  };
  const clock = ({ wall, offsetMin }: Told): string => clockText(wall, { offsetMin, locale: display.locale });
  return (
    <PaperSection name={messages.story.title} note={<p>{messages.story.note}</p>}>
      <ol className="story">
        {story.map((event, index) => {
          const at = clock(event);
          const previous = story[index - 1];
          const shown = previous !== undefined && clock(previous) === at ? '' : at;
          const { head, rest } = storyWords[event.code](factsOf(event));
          return (
            <li key={`${event.version} ${event.code} ${String(event.params['instrument'] ?? '')}`} data-code={event.code}>
              <time className="dim">{shown}</time>
              <span className="letter">
                <b>{event.letter}</b>
              </span>
              <p>
                {event.letter === null ? capital(head) : <b>{capital(head)}</b>}
                {rest === undefined ? null : ` ${rest}`}
              </p>
            </li>
          );
        })}
      </ol>
    </PaperSection>
  );
}
