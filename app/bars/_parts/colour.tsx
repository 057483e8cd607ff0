'use client';
import { useState } from 'react';
import * as z from 'zod/mini';
import type { PhotoAnswer } from '#lib/protocol/afterwards';
import type { HttpProblem } from '#lib/protocol/http';
import type { CureKept } from '#lib/work/bars/documents';
import { shortDate } from '#lib/words/times';
import { photoDue, photoNext } from '#lib/work/bars/due';
import { useDisplay } from '../../_live/use';
import { sendFile } from '../../_ui/api';
import { on } from '../../_ui/classes';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { useNow } from '../../_ui/use-now';
import { lotMessages } from '../messages-lot';
import { Frame } from './frame';
import type { LotProps } from './lot-page';
import { daysSince } from './stage';
import { useWant } from './use-want';

const DAY_MS = 86_400_000;
const SENT = z.looseObject({ sha256: z.string() });
const TYPES = 'image/jpeg,image/png,image/webp';

/** One log over days, each photograph in the same frame, and when the next is due. */
export function Colour({ page: { row, state }, rule, again }: LotProps & { readonly rule: CureKept }) {
  const now = useNow();
  const { locale } = useDisplay();
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const [busy, setBusy] = useState(false);
  const wanting = useWant(row, again);
  const { colour } = lotMessages;
  const from = row.cut?.wall ?? null;
  const shown = state.photos.filter(({ struck }) => struck === null);
  const today = from === null || now === null ? null : daysSince(from, now);
  const taken = from === null ? [] : shown.map(({ wall }) => daysSince(from, wall));
  const due = today === null ? null : photoDue(rule.photos, taken, today);
  const next = today === null ? null : photoNext(rule.photos, today);
  const send = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    setBusy(true);
    const sent = await sendFile<PhotoAnswer>(SENT, '/api/photos', file);
    setProblem(sent.ok ? null : sent.problem);
    if (sent.ok) await wanting.want({ kind: 'photo', sha256: sent.value.sha256, note: '' });
    setBusy(false);
  };
  return (
    <PaperSection
      name={colour.title}
      note={
        <>
          <p>{colour.note}</p>
          {row.traits.vanillin ? <p>{colour.vanillin}</p> : null}
        </>
      }
    >
      <div className={on('form')}>
        {shown.map((photo) => (
          <Frame
            key={photo.entry}
            sha256={photo.sha256}
            alt={colour.alt(row.mark, photo.day)}
            caption={`${colour.day(photo.day)}, ${shortDate(photo.wall, { offsetMin: photo.offsetMin, locale })}`}
          />
        ))}
        <Frame sha256={null} alt="" caption={shown.length === 0 ? colour.none : ''} />
      </div>
      {due === null ? null : (
        <p className={on('gap')}>
          <b>{colour.due(due)}</b>
        </p>
      )}
      {next === null || from === null || due !== null ? null : (
        <p className={on('gap')}>{colour.next(shortDate(from + next * DAY_MS, { offsetMin: null, locale }))}</p>
      )}
      <div className={on('acts')}>
        <label className={on('act')}>
          {busy ? colour.sending : colour.take}
          <input
            className="unseen"
            type="file"
            accept={TYPES}
            capture="environment"
            disabled={busy}
            onChange={(event) => void send(event.target.files?.[0])}
          />
        </label>
      </div>
      {problem === null ? null : <Problem problem={problem} />}
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </PaperSection>
  );
}
