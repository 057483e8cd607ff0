'use client';
import type { Route } from 'next';
import { useRouter, useSearchParams } from 'next/navigation';
import { useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import type { FollowLot, FollowWrap } from '#lib/protocol/lots';
import { useDisplay } from '../../_live/use';
import type { Answer } from '../../_ui/api';
import { on } from '../../_ui/classes';
import { Choice, TextField } from '../../_ui/fields';
import { freshId } from '../../_ui/fresh-id';
import { PaperPage } from '../../_ui/paper';
import { Asking, Problem, ProblemSection } from '../../_ui/problem';
import { PaperSection, PaperTitle } from '../../_ui/section';
import { shelfApi } from '../../_ui/shelf-api';
import { useAsked } from '../../_ui/use-asked';
import { followMessages } from '../messages-follow';
import { followApi } from './follow-api';
import { FollowTable, goneText, OnceNamed } from './follow-table';
import { askStores, lotOptions, lotQuery } from './stores';
import { StoresNav } from './stores-nav';
import { wrapIn, wrapName, wrapQuery } from './wrap-lot';

const { recall: words } = followMessages;
/** What is recalled: a lot of a material, or of what goes around bars. */
type Found = Pick<FollowLot, 'mark' | 'batches' | 'once'> & { readonly material: FollowLot | null };

const ofMaterial = (found: FollowLot): Found => ({ ...found, material: found });
const ofWrap = (found: FollowWrap): Found => ({ ...found, mark: wrapName(found), material: null });

const askFor = async (wrap: ReturnType<typeof wrapIn>, lot: string): Promise<Answer<Found | null>> => {
  if (wrap !== null) {
    const answer = await followApi.wrap(wrap);
    return answer.ok ? { ok: true, value: ofWrap(answer.value) } : answer;
  }
  if (lot === '') return { ok: true, value: null };
  const answer = await followApi.lot(lot);
  return answer.ok ? { ok: true, value: ofMaterial(answer.value) } : answer;
};

/** A lot, what it touched, and a list to work through. `?lot=` names it, or `?wrap=`. */
export function RecallPage() {
  const query = useSearchParams();
  const [wrap, lot] = [wrapIn(query), query.get('lot') ?? ''];
  const chosen = wrap === null ? (lot === '' ? '' : lotQuery(lot)) : wrapQuery(wrap);
  const router = useRouter();
  const { asked: lots } = useAsked(askStores);
  const { asked, again } = useAsked<Found | null>(() => askFor(wrap, lot), { key: chosen });
  const options = lots.state === 'there' ? lotOptions(lots.value) : [];
  const found = asked.state === 'there' ? asked.value : null;
  return (
    <PaperPage foot={words.title}>
      <PaperTitle title={words.title} lead={words.lead} side={<StoresNav />} />
      <PaperSection name={words.step.lot}>
        <div className={on('form broad')}>
          <Choice
            id="recall-lot"
            label={followMessages.ask.lot}
            value={chosen}
            options={[['', followMessages.ask.choose], ...options]}
            onChange={(next) => router.push(`/stores/recall?${next}` as Route)}
          />
        </div>
        {asked.state === 'asking' && chosen !== '' ? <Asking /> : null}
        {found?.material == null ? null : (
          <Apart key={`${chosen} ${found.material.lot?.state ?? ''}`} found={found.material} onDone={again} />
        )}
        {found !== null && found.material === null ? <p className={on('reading')}>{words.apartWrap}</p> : null}
      </PaperSection>
      {asked.state === 'failed' ? <ProblemSection problem={asked.problem} onAgain={again} /> : null}
      {found === null ? null : <Touched found={found} onDone={again} />}
    </PaperPage>
  );
}

interface Props {
  readonly found: Found;
  readonly onDone: () => void;
}

/** The bench refuses a lot that is set apart. */
function Apart({ found: { id, lot }, onDone }: { readonly found: FollowLot; readonly onDone: () => void }) {
  const [why, setWhy] = useState('');
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  if (lot === null) return null;
  if (lot.state === 'quarantined') return <p className={on('reading')}>{words.isApart}</p>;
  const put = async (): Promise<void> => {
    const kept = await shelfApi.document('lot', id);
    if (!kept.ok) return setProblem(kept.problem);
    const { length } = kept.value.versions;
    const answer = await shelfApi.put('lot', id, length, { ...lot, state: 'quarantined', why }, words.title);
    return answer.ok ? onDone() : setProblem(answer.problem);
  };
  return (
    <form className={on('form gap')} action={() => void put()}>
      <TextField id="apart-why" label={words.apartWhy} value={why} onChange={setWhy} />
      <div className={on('acts')}>
        <button type="submit" className={on('act')} disabled={why.trim() === ''}>
          {words.apart}
        </button>
      </div>
      {problem === null ? null : <Problem problem={problem} />}
    </form>
  );
}

function Touched({ found, onDone }: Props) {
  const display = useDisplay();
  const bars = found.batches.flatMap((one) => one.bars);
  const gone = bars.flatMap((one) => one.out.map((left) => ({ mark: one.mark, left })));
  const here = bars.reduce((sum, { shelf, away, aside }) => sum + shelf + away + aside, 0);
  const kept = bars.reduce((sum, { retained }) => sum + retained, 0);
  const made = bars.reduce((sum, one) => sum + one.made, 0);
  const out = gone.reduce((sum, { left }) => sum + left.count, 0);
  return (
    <>
      <PaperSection name={words.step.touched}>
        <p className={on('reading')}>{words.sums(found.batches.length, made, { shelf: here, kept, gone: out })}</p>
        {found.batches.length === 0 ? null : <FollowTable batches={found.batches} masses={found.material !== null} />}
        <Hold found={found} onDone={onDone} />
        <OnceNamed mark={found.mark} batches={found.once} />
      </PaperSection>
      <PaperSection name={words.step.list}>
        {gone.length === 0 ? (
          <p className={on('reading')}>{words.nobody}</p>
        ) : (
          <>
            <p className={on('reading')}>{words.tell}</p>
            <ul>
              {gone.map(({ mark, left }, at) => (
                // oxlint-disable-next-line react/no-array-index-key -- two sales on one day to one shop read alike
                <li key={`${mark} ${at}`} data-told={mark}>
                  {`☐ ${mark}: ${goneText(left, display)}. ${words.done} ________________`}
                </li>
              ))}
            </ul>
          </>
        )}
        <div className={on('acts')}>
          <button type="button" className={on('act first')} onClick={() => window.print()}>
            {words.print}
          </button>
        </div>
      </PaperSection>
    </>
  );
}

/** All bars of it in one act; those that are held stay held. */
function Hold({ found: { mark, batches }, onDone }: Props) {
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const [waits, setWaits] = useState(false);
  const open = batches.flatMap(({ bars }) => bars.filter(({ held, shelf, away }) => held === null && shelf + away > 0));
  if (open.length === 0) return batches.some(({ bars }) => bars.length > 0) ? <p className={on('reading')}>{words.isHeld}</p> : null;
  const hold = async (): Promise<void> => {
    setWaits(true);
    const answers = await Promise.all(open.map(({ id }) => followApi.hold(id, freshId('recall'), words.holdWhy(mark))));
    setWaits(false);
    const failed = answers.find((answer) => !answer.ok);
    setProblem(failed?.ok === false ? failed.problem : null);
    onDone();
  };
  return (
    <>
      <p className={on('warn')}>{words.holding(open.reduce((sum, { shelf, away }) => sum + shelf + away, 0))}</p>
      <div className={on('acts')}>
        <button type="button" className={on('act')} disabled={waits} onClick={() => void hold()}>
          {words.hold}
        </button>
      </div>
      {problem === null ? null : <Problem problem={problem} />}
    </>
  );
}
