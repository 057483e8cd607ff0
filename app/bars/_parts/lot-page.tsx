'use client';
import { useSearchParams } from 'next/navigation';
import { useEffect } from 'react';
import type { BarsPage } from '#lib/protocol/bars';
import { barsApi } from '../../_ui/bars-api';
import type { Answer } from '../../_ui/api';
import { useBars } from '../../_ui/cure/use-bars';
import type { BarsThere } from '../../_ui/cure/use-bars';
import { useCure } from '../../_ui/cure/use-cure';
import { PaperPage } from '../../_ui/paper';
import { Asking, ProblemSection } from '../../_ui/problem';
import { PaperTitle } from '../../_ui/section';
import { SHARED_EVERY_MS, useAsked } from '../../_ui/use-asked';
import { useNow } from '../../_ui/use-now';
import { lotMessages } from '../messages-lot';
import { Colour } from './colour';
import { Counts } from './counts';
import { CureSection } from './cure-section';
import { CutDone } from './cut-done';
import { CutSection } from './cut-section';
import { LabelSection } from './label-section';
import { LotCost } from './lot-cost';
import { LotMould } from './lot-mould';
import { LotTitle } from './lot-title';
import { Notes } from './notes';
import { ShelfPlace } from './shelf-place';
import { isThrownAway } from './stage';
import { Story } from './story';
import { Weighings } from './weighings';
import { Wrapping } from './wrapping';
import type { LotProps } from './lot-props';

const NO_ID: Answer<BarsPage> = { ok: false, problem: lotMessages.noId, status: 404 };

/** One bar lot, from its mould until it is gone. */
export function LotPage() {
  const id = useSearchParams().get('id') ?? '';
  const { asked, again } = useAsked(() => (id === '' ? Promise.resolve(NO_ID) : barsApi.lot(id)), { key: id, everyMs: SHARED_EVERY_MS });
  const bars = useBars();
  if (asked.state === 'there' && bars.there !== null) return <Lot page={asked.value} there={bars.there} again={again} />;
  const problem = asked.state === 'failed' ? asked.problem : bars.problem;
  return (
    <PaperPage>
      <PaperTitle title={lotMessages.title}>{problem === null ? <Asking /> : null}</PaperTitle>
      {problem === null ? null : <ProblemSection problem={problem} onAgain={problem === lotMessages.noId ? undefined : again} />}
    </PaperPage>
  );
}

function Lot({ page, there, again }: LotProps & { readonly there: BarsThere }) {
  const { row } = page;
  const now = useNow();
  const rows = useOne(page);
  const cureOf = useCure(rows, there.all, there.rule, now === null ? null : now - (now % 3_600_000));
  const cure = cureOf(row);
  const isCut = row.cut !== null;
  const bars = isCut && !isThrownAway(row);
  useAnchor();
  return (
    <PaperPage foot={lotMessages.foot(row.mark)}>
      <LotTitle page={page} cure={cure} rule={there.rule} now={now} />
      <LotMould page={page} there={there} again={again} />
      {isCut ? <CutDone page={page} again={again} /> : <CutSection page={page} there={there} again={again} />}
      <Colour page={page} rule={there.rule} again={again} />
      {bars ? <CureSection cure={cure} now={now} /> : null}
      {bars ? <Weighings page={page} again={again} /> : null}
      {bars || !isCut ? <ShelfPlace page={page} places={there.rule.places} again={again} /> : null}
      {bars ? <Counts page={page} again={again} /> : null}
      {bars ? <LabelSection page={page} cure={cure} again={again} /> : null}
      {bars ? <Wrapping page={page} again={again} /> : null}
      {bars ? <LotCost id={page.row.id} version={page.row.version} /> : null}
      <Notes page={page} again={again} />
      <Story page={page} />
    </PaperPage>
  );
}

/** The same list as long as nothing was entered. */
const kept = new WeakMap<BarsPage, readonly [BarsPage['row']]>();
const useOne = (page: BarsPage): readonly BarsPage['row'][] => {
  const known = kept.get(page) ?? [page.row];
  kept.set(page, known);
  return known;
};

/** The part an address names is there only once the lot is. */
const useAnchor = (): void => {
  useEffect(() => {
    const { hash } = location;
    if (hash !== '') document.querySelector(hash)?.scrollIntoView();
  }, []);
};
