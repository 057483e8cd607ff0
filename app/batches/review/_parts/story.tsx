'use client';
import { Fragment, useId, useState } from 'react';
import type { BatchPage } from '#lib/protocol/http';
import type { Display } from '#lib/units/display';
import type { ReviewLine } from '#lib/work/batch/index';
import { useDisplay } from '../../../_live/use';
import { MeasuredQuantity, Worked } from '../../../_ui/figures';
import type { Sentence } from '#lib/words/sentence';
import { clockText } from '#lib/words/times';
import { PaperSection } from '../../../_ui/section';
import { messages } from '#lib/words/review/messages';
import { factsOf, newDay, onDay } from '#lib/words/record/told';
import { storyWords } from '#lib/words/review/messages-story';
import type { Facts } from '#lib/words/review/messages-story';
import type { Told } from '#lib/words/review/told';
import type { NameOf } from './who';
import { namedOf } from './who';
import { Workings } from './workings';
import { on } from './classes';

interface Props {
  readonly review: BatchPage;
  readonly story: readonly Told[];
  readonly nameOf: NameOf;
}

/** What happened, in the order of the record. Departures from the plan are bold and carry the letter that stands in their line’s row. */
export function Story({ review, story, nameOf }: Props) {
  const display = useDisplay();
  const lines = new Map(review.lines.map((line) => [line.line as string, line] as const));
  const clock = ({ wall, offsetMin }: Told): string => clockText(wall, { offsetMin, locale: display.locale });
  return (
    <PaperSection name={messages.story.title} note={<p>{messages.story.note}</p>}>
      <ol className={on('story')} data-story="">
        {story.map((event, index) => {
          const previous = story[index - 1];
          const line = lines.get(String(event.params['line'])) ?? null;
          return (
            <Event
              key={`${event.version} ${event.code} ${String(event.params['instrument'] ?? event.params['line'] ?? '')}`}
              event={event}
              at={previous !== undefined && clock(previous) === clock(event) ? '' : clock(event)}
              day={newDay(event, previous, display.locale)}
              line={line}
              facts={factsOf(event, review, display, nameOf)}
              nameOf={nameOf}
              display={display}
              who={previous?.by === event.by ? null : namedOf(review, event.by)}
            />
          );
        })}
      </ol>
    </PaperSection>
  );
}

interface EventProps {
  readonly event: Told;
  readonly at: string;
  /** Where it is another than of the event before. */
  readonly day: string | null;
  readonly line: ReviewLine | null;
  readonly facts: Facts;
  readonly nameOf: NameOf;
  readonly display: Display;
  /** Who did it, where that is another than before and has a name. */
  readonly who: string | null;
}

function Event({ event, at, day, line, facts, nameOf, display, who }: EventProps) {
  const [open, setOpen] = useState(false);
  const id = useId();
  const { head: told, rest } = storyWords[event.code](facts);
  const head = onDay(day, told);
  const say = (sentence: Sentence) => (
    <Said sentence={sentence} open={open} controls={id} onOpen={line === null ? null : () => setOpen(!open)} />
  );
  return (
    <li data-code={event.code} data-letter={event.letter ?? undefined}>
      <time className={on('dim')}>{at}</time>
      <b>{event.letter}</b>
      <div>
        <p>
          {event.letter === null ? say(head) : <b>{say(head)}</b>} {say(rest)}
          {who === null ? null : <span className={on('dim')}> {messages.story.by(who)}</span>}
        </p>
        {open && line !== null ? (
          <div id={id} className={on('slip')}>
            <Workings line={line} display={display} nameOf={nameOf} onClose={() => setOpen(false)} />
          </div>
        ) : null}
      </div>
    </li>
  );
}

interface SaidProps {
  readonly sentence: Sentence;
  readonly open: boolean;
  readonly controls: string;
  /** `null`: the workings are those of all lines, in the table above. */
  readonly onOpen: (() => void) | null;
}

/** Running text whose figures keep their voices. */
function Said({ sentence, open, controls, onOpen }: SaidProps) {
  return sentence.map((piece, at) => {
    // A sentence never changes its order.
    const key = at;
    if (typeof piece === 'string') return <Fragment key={key}>{piece}</Fragment>;
    if (piece.voice === 'measured') return <MeasuredQuantity key={key} text={piece.text} />;
    return onOpen === null ? (
      <a key={key} className={on('worked')} href="#lines">
        {piece.text}
      </a>
    ) : (
      <Worked key={key} open={open} onOpen={onOpen} controls={controls}>
        {piece.text}
      </Worked>
    );
  });
}
