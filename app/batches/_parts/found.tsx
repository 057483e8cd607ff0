'use client';
import { useDeferredValue, useState } from 'react';
import type { BatchFind } from '#lib/protocol/find';
import type { BatchList } from '#lib/protocol/http';
import { batchesApi } from '../../_ui/batches-api';
import { on } from '../../_ui/classes';
import { ProblemSection } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { useAsked } from '../../_ui/use-asked';
import { messages } from '../messages';
import { Finder, findOf, NOTHING_ASKED } from './finder';
import { Listed, PAGE } from './listed';

/** The list, and above it what it can be narrowed by. */
export function Found({ first, revision }: { readonly first: BatchList; readonly revision: string }) {
  const [asked, setAsked] = useState(NOTHING_ASKED);
  const find = findOf(useDeferredValue(asked));
  const narrowed = Object.keys(find).length > 0;
  const { list, find: words } = messages;
  return (
    <>
      <PaperSection name={words.title} note={<p>{words.note}</p>}>
        <Finder asked={asked} onChange={setAsked} />
      </PaperSection>
      {narrowed ? (
        <Narrowed find={find} revision={revision} onAll={() => setAsked(NOTHING_ASKED)} />
      ) : (
        <PaperSection
          name={list.title}
          note={
            <>
              <p>{list.note}</p>
              <p>{list.teach}</p>
            </>
          }
        >
          <Listed first={first} status={null} find={find} />
        </PaperSection>
      )}
    </>
  );
}

interface NarrowedProps {
  readonly find: BatchFind;
  readonly revision: string;
  readonly onAll: () => void;
}

function Narrowed({ find, revision, onAll }: NarrowedProps) {
  const { find: words } = messages;
  const query = JSON.stringify(find);
  // What was found stays on the page until what is typed now has its answer.
  const { asked, again } = useAsked(() => batchesApi.find(find, null, PAGE), { revision: `${revision} ${query}` });
  if (asked.state === 'failed') return <ProblemSection problem={asked.problem} onAgain={again} />;
  return (
    <PaperSection name={words.found}>
      {asked.state === 'asking' ? null : asked.value.batches.length === 0 ? (
        <p>{words.none}</p>
      ) : (
        <Listed key={query} first={asked.value} status={null} find={find} />
      )}
      <div className={on('acts')}>
        <button type="button" className={on('act')} onClick={onAll}>
          {words.all}
        </button>
      </div>
    </PaperSection>
  );
}
