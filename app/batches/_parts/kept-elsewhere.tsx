'use client';
import { useState } from 'react';
import type { BackupsPage } from '#lib/protocol/export';
import type { HttpProblem } from '#lib/protocol/http';
import { numberText } from '#lib/units/format';
import { clockText, dateText } from '#lib/words/times';
import { useDisplay } from '../../_live/use';
import { batchesApi } from '../../_ui/batches-api';
import { on } from '../../_ui/classes';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { useAsked } from '../../_ui/use-asked';
import { messages } from '../messages';

/** Everything to take away, and the copies that are made by themselves. */
export function KeptElsewhere() {
  const { asked, put } = useAsked(batchesApi.backups);
  const [busy, setBusy] = useState(false);
  const { elsewhere } = messages;
  const [refused, setRefused] = useState<HttpProblem | null>(null);
  const fetchAll = async (): Promise<void> => {
    const answer = await batchesApi.archive();
    setRefused(answer.ok ? null : answer.problem);
    if (answer.ok) window.location.assign(answer.value.path);
  };
  const copy = async (): Promise<void> => {
    setBusy(true);
    const answer = await batchesApi.backUpNow();
    setBusy(false);
    setRefused(answer.ok ? null : answer.problem);
    if (answer.ok) put(answer.value);
  };
  const page = asked.state === 'there' ? asked.value : null;
  const problem = refused ?? (asked.state === 'failed' ? asked.problem : (page?.problem ?? null));
  return (
    <PaperSection name={elsewhere.title} note={<p>{elsewhere.note}</p>}>
      {problem === null ? null : <Problem problem={problem} />}
      {page === null ? null : <Newest page={page} />}
      <p className={on('reading')}>{elsewhere.archiveNote}</p>
      <div className={on('acts')}>
        <button type="button" className={on('act')} onClick={() => void fetchAll()}>
          {elsewhere.archive}
        </button>
        <button type="button" className={on('act')} disabled={busy} onClick={() => void copy()}>
          {busy ? elsewhere.copying : elsewhere.now}
        </button>
      </div>
    </PaperSection>
  );
}

const MEGABYTE = 1_000_000;

function Newest({ page: { backups, folder } }: { readonly page: BackupsPage }) {
  const { locale } = useDisplay();
  const { elsewhere } = messages;
  const [newest] = backups;
  if (newest === undefined) return <p className={on('reading')}>{elsewhere.none(folder)}</p>;
  const zone = { offsetMin: null, locale };
  const when = `${dateText(newest.wall, zone)}, ${clockText(newest.wall, zone)}`;
  return <p className={on('reading')}>{elsewhere.newest(when, `${numberText(newest.bytes / MEGABYTE, locale, 1)} MB`, folder)}</p>;
}
