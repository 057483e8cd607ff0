'use client';
import type { Route } from 'next';
import Link from 'next/link';
import type { BatchList, BatchListRow } from '#lib/protocol/http';
import { see } from '../../_live/selectors';
import { useLive } from '../../_live/use';
import { api } from '../../_ui/api';
import { PaperPage } from '../../_ui/paper';
import { Asking, ProblemSection } from '../../_ui/problem';
import { useAsked } from '../../_ui/use-asked';
import { PaperSection, PaperTitle, Steps } from '../../_ui/section';
import { messages } from '../messages';
import { on } from '../../_ui/classes';
import { Found } from './found';
import { KeptElsewhere } from './kept-elsewhere';
import { Listed, PAGE } from './listed';

/** Every batch of this bench, newest first. */
export function BatchesPage() {
  const standing = useLive(({ batch }) => `${batch?.id ?? ''} ${batch?.version ?? 0}`);
  const { asked, again } = useAsked(() => api.batches(null, PAGE), { revision: standing });
  const realm = useLive(see.realm);
  return (
    <PaperPage foot={messages.title}>
      <PaperTitle
        title={messages.title}
        lead={asked.state === 'there' ? leadOf(asked.value) : undefined}
        side={realm === null ? null : <p>{messages.realm[realm]}</p>}
      >
        {asked.state === 'asking' ? <Asking /> : null}
        {asked.state === 'there' && asked.value.batches.length > 0 ? (
          <div className={on('acts')}>
            <Link className={on('act')} href={'/batches/pouring' as Route} prefetch={false}>
              {messages.pouring}
            </Link>
          </div>
        ) : null}
      </PaperTitle>
      {asked.state === 'failed' ? <ProblemSection problem={asked.problem} onAgain={again} /> : null}
      {asked.state === 'there' ? <Sections first={asked.value} revision={standing} /> : null}
    </PaperPage>
  );
}

const isMarked = ({ overPours, overrides, byHand, stated = 0 }: BatchListRow): boolean => overPours + overrides + byHand + stated > 0;

const leadOf = ({ batches, next }: BatchList): string => {
  const { lead } = messages;
  if (batches.length === 0) return lead.none;
  const marked = batches.filter(isMarked).length;
  return `${lead.some(batches.length, next !== null)} ${marked === 0 ? lead.clean : lead.marked(marked)}`;
};

/** Everything weighed here; what waits parked, however old, stands before it. */
function Sections({ first, revision }: { readonly first: BatchList; readonly revision: string }) {
  if (first.batches.length === 0) return <Empty />;
  return (
    <>
      <Parked revision={revision} />
      <Found first={first} revision={revision} />
      <KeptElsewhere />
    </>
  );
}

const EVERYTHING = {};

function Parked({ revision }: { readonly revision: string }) {
  const { asked, again } = useAsked(() => api.batches(null, PAGE, 'parked'), { revision });
  const { parked } = messages;
  if (asked.state === 'failed') return <ProblemSection problem={asked.problem} onAgain={again} />;
  if (asked.state === 'asking' || asked.value.batches.length === 0) return null;
  return (
    <PaperSection name={parked.title} note={<p>{parked.note}</p>}>
      <Listed first={asked.value} status="parked" find={EVERYTHING} />
    </PaperSection>
  );
}

function Empty() {
  const { empty } = messages;
  return (
    <PaperSection name={empty.title}>
      <Steps steps={empty.steps} />
      <div className={on('acts')}>
        <Link className={on('act first')} href="/bench" prefetch={false}>
          {empty.act}
        </Link>
      </div>
    </PaperSection>
  );
}
