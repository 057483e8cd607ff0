'use client';
import { PaperPage } from '../../_ui/paper';
import { Asking, Problem, ProblemSection } from '../../_ui/problem';
import { PaperTitle } from '../../_ui/section';
import { SHARED_EVERY_MS, useAsked } from '../../_ui/use-asked';
import { messages } from '../messages';
import { Catalogue } from './catalogue';
import { Lots } from './lots';
import { OwnMaterials } from './own';
import { Preparations } from './preparations';
import { StoresNav } from './stores-nav';
import { askStores, knownOf } from './stores';

/** Lots, materials and preparations. The catalogue is the program's own and stands whether or not the bench machine answers. */
export function StoresPage() {
  const { asked, again } = useAsked(askStores, { everyMs: SHARED_EVERY_MS });
  const there = asked.state === 'there' ? asked.value : null;
  const count = there?.lots.items.length ?? 0;
  return (
    <PaperPage foot={messages.title}>
      <PaperTitle
        title={messages.title}
        side={<StoresNav />}
        lead={there === null ? undefined : count === 0 ? messages.lead.none : messages.lead.some(count)}
      >
        {asked.state === 'asking' ? <Asking /> : null}
        {asked.state === 'there' && asked.problem !== null ? <Problem problem={asked.problem} onAgain={again} /> : null}
      </PaperTitle>
      {asked.state === 'failed' ? <ProblemSection problem={asked.problem} onAgain={again} /> : null}
      {there === null ? null : <Lots stores={there} known={knownOf(there)} again={again} />}
      {there === null ? null : (
        <>
          <OwnMaterials stores={there} again={again} />
          <Preparations stores={there} known={knownOf(there)} again={again} />
        </>
      )}
      <Catalogue />
    </PaperPage>
  );
}
