'use client';
import type { Route } from 'next';
import { useRouter, useSearchParams } from 'next/navigation';
import { useState } from 'react';
import { massText } from '#lib/units/format';
import type { FollowBars, FollowLot, FollowWrap } from '#lib/protocol/lots';
import { useDisplay } from '../../_live/use';
import type { Answer } from '../../_ui/api';
import { on } from '../../_ui/classes';
import { Choice, TextField } from '../../_ui/fields';
import { PaperPage } from '../../_ui/paper';
import { Asking, ProblemSection } from '../../_ui/problem';
import { PaperSection, PaperTitle } from '../../_ui/section';
import { useAsked } from '../../_ui/use-asked';
import { followMessages as words } from '../messages-follow';
import { BackSections } from './back-sections';
import { followApi } from './follow-api';
import { FollowTable, OnceNamed } from './follow-table';
import { askStores, lotOptions, lotQuery } from './stores';
import { StoresNav } from './stores-nav';
import { wrapIn, wrapName, wrapQuery } from './wrap-lot';

type Found =
  | { readonly of: 'wrap'; readonly found: FollowWrap }
  | { readonly of: 'nothing' }
  | { readonly of: 'lot'; readonly found: FollowLot }
  | { readonly of: 'bars'; readonly found: FollowBars };

const found = async (wrap: ReturnType<typeof wrapIn>, lot: string, mark: string): Promise<Answer<Found>> => {
  if (wrap !== null) {
    const answer = await followApi.wrap(wrap);
    return answer.ok ? { ok: true, value: { of: 'wrap', found: answer.value } } : answer;
  }
  if (lot !== '') {
    const answer = await followApi.lot(lot);
    return answer.ok ? { ok: true, value: { of: 'lot', found: answer.value } } : answer;
  }
  if (mark === '') return { ok: true, value: { of: 'nothing' } };
  const answer = await followApi.bars(mark);
  return answer.ok ? { ok: true, value: { of: 'bars', found: answer.value } } : answer;
};

/** `?lot=`, `?wrap=` or `?mark=`: both ways along the same trace. */
export function FollowPage() {
  const query = useSearchParams();
  const [wrap, lot, mark] = [wrapIn(query), query.get('lot') ?? '', query.get('mark') ?? ''];
  const chosen = wrap === null ? (lot === '' ? '' : lotQuery(lot)) : wrapQuery(wrap);
  const { asked, again } = useAsked(() => found(wrap, lot, mark), { key: `${chosen} ${mark}` });
  return (
    <PaperPage foot={words.title}>
      <PaperTitle title={words.title} lead={words.lead} side={<StoresNav />} />
      <Ask key={`${chosen} ${mark}`} chosen={chosen} mark={mark} />
      {asked.state === 'asking' ? <Asking /> : null}
      {asked.state === 'failed' ? <ProblemSection problem={asked.problem} onAgain={again} /> : null}
      {asked.state === 'there' && asked.value.of === 'lot' ? <OfLot found={asked.value.found} /> : null}
      {asked.state === 'there' && asked.value.of === 'wrap' ? <OfWrap found={asked.value.found} /> : null}
      {asked.state === 'there' && asked.value.of === 'bars' ? <BackSections found={asked.value.found} /> : null}
    </PaperPage>
  );
}

function Ask({ chosen, mark }: { readonly chosen: string; readonly mark: string }) {
  const router = useRouter();
  const { asked } = useAsked(askStores);
  const [typed, setTyped] = useState(mark);
  const { ask } = words;
  const options = asked.state === 'there' ? lotOptions(asked.value) : [];
  const go = (query: string): void => router.push(`/stores/follow?${query}` as Route);
  return (
    <PaperSection name={ask.title}>
      <form className={on('form broad')} action={() => go(`mark=${encodeURIComponent(typed.trim())}`)}>
        <Choice id="follow-lot" label={ask.lot} value={chosen} options={[['', ask.choose], ...options]} onChange={go} />
        <TextField id="follow-mark" label={ask.mark} hint={ask.markHint} value={typed} onChange={setTyped} />
        <div className={on('acts whole')}>
          <button type="submit" className={on('act')} disabled={typed.trim() === ''}>
            {ask.go}
          </button>
        </div>
      </form>
    </PaperSection>
  );
}

function OfLot({ found: { mark, used, batches, once } }: { readonly found: FollowLot }) {
  const display = useDisplay();
  return (
    <PaperSection name={words.ofLot} note={<p>{words.ofLotNote}</p>}>
      <p className={on('reading')}>{words.used(mark, massText(used, display, null), batches.length)}</p>
      {batches.length === 0 ? null : <FollowTable batches={batches} />}
      <OnceNamed mark={mark} batches={once} />
    </PaperSection>
  );
}

function OfWrap({ found }: { readonly found: FollowWrap }) {
  const { pieces, batches, once } = found;
  const name = wrapName(found);
  return (
    <PaperSection name={words.ofLot} note={<p>{words.ofWrapNote}</p>}>
      <p className={on('reading')}>{words.usedWrap(name, pieces, batches.length)}</p>
      {batches.length === 0 ? null : <FollowTable batches={batches} masses={false} />}
      <OnceNamed mark={name} batches={once} />
    </PaperSection>
  );
}
