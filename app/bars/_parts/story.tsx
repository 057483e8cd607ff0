'use client';
import { useState } from 'react';
import type { Display } from '#lib/units/display';
import { massText, numberText, temperatureText } from '#lib/units/format';
import { shortMoment } from '#lib/words/times';
import type { BarsEvent } from '#lib/work/bars/review';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { Head } from '../../_ui/head';
import { PaperSection } from '../../_ui/section';
import { messages } from '../messages';
import { lotMessages } from '../messages-lot';
import type { LotProps } from './lot-props';

const FIRST = 12;
const MASSES: ReadonlySet<string> = new Set(['net', 'batter', 'before', 'after']);
/** Said by their column already, or by no person. */
const UNSAID: ReadonlySet<string> = new Set(['entry', 'to', 'for', 'name', 'text', 'was']);

const numbers: Readonly<Record<string, ((n: number) => string) | undefined>> = lotMessages.story.numbers;
const stateWords: Readonly<Record<string, string>> = messages.moulds.state;

/** Words somebody typed stand as they were typed; codes of ours are read as words. */
const TYPED: ReadonlySet<string> = new Set(['mould', 'cutter', 'place', 'note', 'text', 'probe', 'used']);
const isTyped = (code: BarsEvent['code'], key: string): boolean => TYPED.has(key) || (code === 'held' && key === 'reason');

const said = (code: BarsEvent['code'], key: string, value: string | number, display: Display): string => {
  if (typeof value === 'string' && isTyped(code, key)) return value;
  if (typeof value === 'string')
    return key === 'state' ? (stateWords[value] ?? value) : value === 'aside' ? lotMessages.counts.heads.aside : value.replaceAll('-', ' ');
  if (key === 'known') return lotMessages.story.known(massText(value, display));
  if (MASSES.has(key)) return massText(value, display);
  if (key === 'room') return temperatureText(value, display);
  if (key === 'humidity') return `${numberText(value / 10_000, display.locale)} %`;
  if (key === 'thickness') return `${numberText(value / 1000, display.locale, 2)} mm`;
  if (key === 'bar') return lotMessages.weighings.barHead(value);
  return numbers[key]?.(value) ?? numberText(value, display.locale);
};

const wordsOf = ({ code, params }: BarsEvent, display: Display, orders: LotProps['page']['orders']): string => {
  const parts = Object.entries(params).filter(
    ([key, value]) => !(UNSAID.has(key) && !(key === 'text' && code === 'noted')) && value !== '',
  );
  return parts.map(([key, value]) => (key === 'at' ? (orders[value] ?? String(value)) : said(code, key, value, display))).join(', ');
};

/** Every entry of the lot, newest first. */
export function Story({ page: { story: all, record, orders } }: Pick<LotProps, 'page'>) {
  const display = useDisplay();
  const [whole, setWhole] = useState(false);
  const { story } = lotMessages;
  const newest = all.toReversed();
  const shown = whole ? newest : newest.slice(0, FIRST);
  return (
    <PaperSection
      name={story.title}
      note={
        <>
          <p>{story.note}</p>
          <p>{story.record(record.entries, numberText(record.seq, display.locale))}</p>
        </>
      }
    >
      <table className={on('table')}>
        <caption className="unseen">{story.title}</caption>
        <thead>
          <tr>
            <Head name={story.heads.when} />
            <Head name={story.heads.what} />
            <Head name={story.heads.how} />
          </tr>
        </thead>
        <tbody>
          {shown.map((event) => (
            <tr key={event.version}>
              <td className={on('nw')}>{shortMoment(event.wall, { offsetMin: event.offsetMin, locale: display.locale })}</td>
              <th scope="row">{story.codes[event.code]}</th>
              <td>{wordsOf(event, display, orders)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {newest.length > shown.length ? (
        <p className={on('gap')}>
          <button type="button" className={on('link')} onClick={() => setWhole(true)}>
            {story.more}
          </button>
        </p>
      ) : null}
    </PaperSection>
  );
}
