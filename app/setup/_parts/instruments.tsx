'use client';
import { Fragment, useId, useState } from 'react';
import type { InstrumentConfig } from '#lib/measure/instrument';
import { linkAdvice } from '#lib/measure/link/words';
import type { InstrumentsPage } from '#lib/protocol/http';
import { numberText } from '#lib/units/format';
import { sumOfAll } from '#lib/units/sum';
import { useDisplay } from '../../_live/use';
import { capital } from '#lib/words/words';
import { PaperSection } from '../../_ui/section';
import { Head } from '../../_ui/head';
import { messages } from '../messages';
import { Closer } from './closer';
import { Now } from './now';
import type { Instrument, Put } from './instrument';
import { Bytes } from './bytes';
import { on } from './classes';

interface Props {
  readonly page: InstrumentsPage;
  readonly put: Put;
  readonly onChange: (config: InstrumentConfig) => void;
}

/** Every instrument: what it says now, how old that is, what its frames look like, and how often it failed. */
export function Instruments({ page, put, onChange }: Props) {
  const [open, setOpen] = useState<string | null>(null);
  const { instruments } = messages;
  const { heads } = instruments;
  const waiting = page.waiting ?? [];
  return (
    <PaperSection
      id="instruments"
      name={instruments.title}
      note={
        <>
          <p>{instruments.note}</p>
          <p>{instruments.faults}</p>
        </>
      }
    >
      {page.instruments.length === 0 ? (
        <p>{instruments.empty}</p>
      ) : (
        <table className={on('table')}>
          <caption className="unseen">{instruments.caption}</caption>
          <thead>
            <tr>
              <Head name={heads.name} />
              <Head name={heads.now} n />
              <Head name={heads.age} unit={instruments.seconds} n wide />
              <Head name={heads.shape} wide />
              <Head name={heads.losses} unit={heads.lossesUnit} n wide />
              <Head name={heads.faults} n wide />
              <Head name={heads.more} unseen />
            </tr>
          </thead>
          <tbody>
            {page.instruments.map((one) => (
              <Row
                key={one.config.id}
                one={one}
                open={open === one.config.id}
                onOpen={() => setOpen(open === one.config.id ? null : one.config.id)}
                put={put}
                onChange={onChange}
              />
            ))}
          </tbody>
        </table>
      )}
      {waiting.length === 0 ? null : <p className={on('gap')}>{instruments.waiting(waiting.map(({ name }) => name))}</p>}
    </PaperSection>
  );
}

interface RowProps {
  readonly one: Instrument;
  readonly open: boolean;
  readonly onOpen: () => void;
  readonly put: Put;
  readonly onChange: (config: InstrumentConfig) => void;
}

function Row({ one, open, onOpen, put, onChange }: RowProps) {
  const id = useId();
  const { locale } = useDisplay();
  const { config, status } = one;
  const { instruments } = messages;
  const faults = sumOfAll(Object.values(status.faults));
  const advice = linkAdvice(status);
  return (
    <Fragment>
      <tr data-instrument={config.id} data-phase={status.phase} className={advice === null ? undefined : on('told')}>
        <th scope="row">{capital(config.name)}</th>
        <Now config={config} status={status} />
        <td className={on('wide')}>{status.shape === null ? instruments.notKnown : <Bytes text={messages.shapes[status.shape]} />}</td>
        <td className={on('n wide')}>{numberText(status.lossesLastHour, locale)}</td>
        <td className={on('n wide')}>{numberText(faults, locale)}</td>
        <td className={on('n')}>
          <button
            type="button"
            className={on('link')}
            aria-expanded={open}
            aria-controls={open ? id : undefined}
            aria-label={open ? undefined : instruments.openSpoken(config.name)}
            onClick={onOpen}
          >
            {open ? instruments.close : instruments.open}
          </button>
        </td>
      </tr>
      {advice === null ? null : (
        <tr className={on('advice')}>
          <td colSpan={7}>
            <b className={on('warn')}>{advice.said}</b> {advice.todo}{' '}
            {status.retryInMs === null ? null : messages.retry(numberText(Math.ceil(status.retryInMs / 1000), locale))}
          </td>
        </tr>
      )}
      {open ? (
        <tr className={on('slip')} id={id}>
          <td colSpan={7}>
            <Closer one={one} put={put} onChange={onChange} />
          </td>
        </tr>
      ) : null}
    </Fragment>
  );
}
