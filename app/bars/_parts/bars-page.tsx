'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { see } from '../../_live/selectors';
import { useLive } from '../../_live/use';
import { on } from '../../_ui/classes';
import { useBars } from '../../_ui/cure/use-bars';
import type { BarsThere } from '../../_ui/cure/use-bars';
import { useCure } from '../../_ui/cure/use-cure';
import { PaperPage } from '../../_ui/paper';
import { Asking, ProblemSection } from '../../_ui/problem';
import { PaperSection, PaperTitle, Steps } from '../../_ui/section';
import { useNow } from '../../_ui/use-now';
import { messages } from '../messages';
import { batchWords } from './realm-words';
import { Curing } from './curing';
import { InMoulds, isDue } from './in-moulds';
import { Past } from './past';
import { Places } from './places';
import { MarketDay } from './market-day';
import { OnShelf } from './on-shelf';
import { stageOf } from './stage';
import { ToCut } from './to-cut';
import { Waiting } from './waiting';

const NONE = [] as const;

/** Every bar lot that is not gone: what is where, since when, ready when. */
export function BarsPage() {
  const { there, problem, again } = useBars();
  const realm = useLive(see.realm);
  return (
    <PaperPage foot={messages.title}>
      {there === null ? (
        <PaperTitle title={messages.title}>{problem === null ? <Asking /> : null}</PaperTitle>
      ) : (
        <Sections there={there} again={again} side={realm === null ? null : <p>{batchWords[realm]}</p>} />
      )}
      {problem === null ? null : <ProblemSection problem={problem} onAgain={again} />}
    </PaperPage>
  );
}

function Sections({ there, again, side }: { readonly there: BarsThere; readonly again: () => void; readonly side: React.ReactNode }) {
  const now = useNow();
  const day = now === null ? null : now - (now % 3_600_000);
  const cureOf = useCure(there.open, there.all, there.rule, day);
  const at = (stage: ReturnType<typeof stageOf>) => there.open.filter((row) => stageOf(row, cureOf(row), now, there.rule) === stage);
  const [mould, whole, curing, ready] = [at('mould'), at('whole'), at('curing'), at('ready')];
  const { lead } = messages;
  const due = mould.filter((row) => isDue(row, there, now)).length;
  const words =
    there.all.length === 0
      ? lead.none
      : `${lead.some(mould.length, curing.length, ready.length)} ${due === 0 ? lead.nothingDue : lead.due(due)}`;
  return (
    <>
      <PaperTitle title={messages.title} lead={words} side={side}>
        <p className={on('reading')}>
          <Link href={'/bars/orders' as Route} prefetch={false}>
            {messages.orders}
          </Link>
        </p>
      </PaperTitle>
      <Waiting revision={there.all.length} onBegun={again} />
      {mould.length === 0 ? null : <InMoulds rows={mould} there={there} onSaid={again} />}
      {whole.length === 0 ? null : <ToCut rows={whole} there={there} />}
      {curing.length === 0 ? null : <Curing rows={curing} rule={there.rule} cureOf={cureOf} />}
      {ready.length === 0 ? null : <OnShelf rows={ready} />}
      <MarketDay rows={[...ready, ...curing.filter(({ counts }) => counts.away > 0)]} onSaid={again} />
      {there.open.length === 0 ? null : <Places rows={there.open} cureOf={cureOf} places={there.rule.places ?? NONE} />}
      {there.all.length > 0 ? (
        <Past rows={there.all} />
      ) : (
        <PaperSection name={messages.empty.title}>
          <Steps steps={messages.empty.steps} />
        </PaperSection>
      )}
    </>
  );
}
