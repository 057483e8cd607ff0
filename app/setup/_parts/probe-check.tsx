'use client';
import { useState } from 'react';
import type { InstrumentConfig } from '#lib/measure/instrument';
import { boilingMilli, checkId, correctionOf, offOf } from '#lib/measure/probe/check';
import type { ProbeCheck } from '#lib/measure/probe/check';
import { boilingPoint, HIGHEST, LOWEST } from '#lib/measure/probe/boiling';
import type { ProbeUse } from '#lib/measure/reading';
import { milliCelsius } from '#lib/units/temperature';
import type { ShelfItem } from '#lib/protocol/shelf';
import { useDisplay, useLive } from '../../_live/use';
import type { LiveState } from '../../_live/store';
import { Choice, TextField } from '../../_ui/fields';
import { showIn } from '#lib/words/quantities';
import { shelfApi } from '../../_ui/shelf-api';
import { shortDate } from '#lib/words/times';
import { useAsked } from '../../_ui/use-asked';
import { messages } from '../messages';
import { on } from './classes';
import { steadyValue } from './steady';

type ProbeConfig = Extract<InstrumentConfig, { kind: 'probe' }>;
type Point = 'ice' | 'boiling';

/** Places this instrument is heard from: its own, or every channel of its board. */
const usesOf =
  (config: ProbeConfig) =>
  ({ frame }: LiveState): string =>
    config.use ?? (frame?.probes ?? []).flatMap(({ name, use }) => (name === config.name ? [use] : [])).join(' ');

/** A probe looked at in ice water or in boiling water: what it is off by is kept with its day, and added to all it shows from then on. */
export function ProbeCheckForm({ config }: { readonly config: ProbeConfig }) {
  const uses = useLive(usesOf(config)).split(' ').filter(Boolean) as ProbeUse[];
  const { asked, again } = useAsked(() => shelfApi.list('probe'));
  const { probeCheck: words } = messages;
  const items = asked.state === 'there' ? asked.value.items : null;
  return (
    <>
      <h3 className={on('minor gap')}>{words.title}</h3>
      <p className={on('reading')}>{words.teach}</p>
      {uses.length === 0 ? <p className={on('dim')}>{words.unheard}</p> : null}
      {items === null
        ? null
        : uses.map((use) => (
            <OfPlace
              key={use}
              config={config}
              use={use}
              item={items.find(({ id }) => id === checkId(config.id, use)) ?? null}
              again={again}
            />
          ))}
    </>
  );
}

interface PlaceProps {
  readonly config: ProbeConfig;
  readonly use: ProbeUse;
  readonly item: ShelfItem | null;
  readonly again: () => void;
}

function OfPlace({ config, use, item, again }: PlaceProps) {
  const display = useDisplay();
  const [point, setPoint] = useState<Point>('ice');
  const [metres, setMetres] = useState('');
  const [error, setError] = useState('');
  const [said, setSaid] = useState('');
  const [busy, setBusy] = useState(false);
  const { probeCheck: words } = messages;
  const show = showIn(display);
  const before = item === null ? null : (item.document as unknown as ProbeCheck);
  const id = checkId(config.id, use);

  const put = async (document: ProbeCheck | null, done: string): Promise<void> => {
    const answer = await shelfApi.put('probe', id, item?.version ?? 0, document);
    setSaid(answer.ok ? done : answer.problem.error);
    again();
  };
  const take = async (): Promise<void> => {
    const altitude = /^-?\d{1,4}$/.test(metres.trim()) ? Number(metres) : Number.NaN;
    const is = point === 'ice' ? milliCelsius(0) : boilingMilli(altitude);
    if (is === null) return setError(words.noAltitude(LOWEST, HIGHEST));
    setError('');
    setBusy(true);
    setSaid(words.waits);
    const found = await steadyValue(use);
    setBusy(false);
    if (typeof found === 'string') return setSaid(words.not[found]);
    const empty = { id, instrument: config.id, use, ice: null, boiling: null };
    const taken = { shown: found, is };
    const document = { ...empty, ...before, ...(point === 'ice' ? { ice: taken } : { boiling: { ...taken, metres: altitude } }) };
    return put(document, words.done(show.temperature(found), show.difference(offOf(taken))));
  };

  return (
    <div className={on('gap')} data-probe-check={use}>
      <p>
        <b>{words.place(messages.uses[use])}</b>{' '}
        {before === null || item === null
          ? words.never
          : words.last({
              ice: before.ice === null ? null : show.difference(offOf(before.ice)),
              boiling: before.boiling === null ? null : show.difference(offOf(before.boiling)),
              at43: show.difference(correctionOf(before, milliCelsius(43_000))),
              when: shortDate(item.wall, { offsetMin: null, locale: display.locale }),
            })}
      </p>
      <div className={on('form')}>
        <Choice id={`${id}-point`} label={words.stands} value={point} options={words.points} onChange={setPoint} />
        {point === 'boiling' ? (
          <TextField id={`${id}-metres`} label={words.altitude} value={metres} error={error} numeric onChange={setMetres} />
        ) : null}
      </div>
      {point === 'boiling' && error === '' && boilingMilli(Number(metres || Number.NaN)) !== null ? (
        <p className={on('dim')}>{boilsAt(Number(metres), show)}</p>
      ) : null}
      <div className={on('acts')}>
        <button type="button" className={on('act')} disabled={busy} onClick={() => void take()}>
          {words.act}
        </button>
        {before === null ? null : (
          <button type="button" className={on('act')} disabled={busy} onClick={() => void put(null, words.dropped)}>
            {words.drop}
          </button>
        )}
      </div>
      <output>{said}</output>
    </div>
  );
}

const boilsAt = (metres: number, show: ReturnType<typeof showIn>): string => {
  const { celsius, within } = boilingPoint(metres);
  return messages.probeCheck.boils(show.temperature(Math.round(celsius * 1000)), show.difference(Math.round(within * 1000)));
};
