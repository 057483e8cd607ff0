'use client';
import { useSearchParams } from 'next/navigation';
import { useState } from 'react';
import type { ShelfDocument, WorkshopPage } from '#lib/protocol/shelf';
import type { Formula } from '#lib/work/formula/index';
import type { Answer } from '../../_ui/api';
import { PaperPage } from '../../_ui/paper';
import { Asking, ProblemSection } from '../../_ui/problem';
import { PaperTitle } from '../../_ui/section';
import { shelfApi } from '../../_ui/shelf-api';
import { useAsked } from '../../_ui/use-asked';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { CardSection } from './card-section';
import { draftStore } from './draft-store';
import type { HeldDraft } from './draft-store';
import { JoiningSection } from './joining-section';
import { LyeSection } from './lye-section';
import { MouldsSection } from './moulds-section';
import { PartSection } from './part-section';
import { PlanSection } from './plan-section';
import { ReferencesSection } from './references-section';
import { SheetHead } from './sheet-head';
import { SheetProvider, useNewSheet } from './use-sheet';
import { VersionsSection } from './versions-section';
import { WarningsSection } from './warnings-section';

interface Opened {
  readonly workshop: WorkshopPage;
  readonly start: HeldDraft;
  /** What stands in `start` is only on this screen. */
  readonly dirty: boolean;
}

/** What was kept, and what this screen holds above it. A draft of a formula never kept is found here alone. */
const openSheet = async (id: string): Promise<Answer<Opened>> => {
  const workshop = await shelfApi.workshop();
  if (!workshop.ok) return workshop;
  const held = draftStore.read(id);
  if (held !== null) return { ok: true, value: { workshop: workshop.value, start: held, dirty: true } };
  const document = await shelfApi.document('formula', id);
  if (!document.ok) return document.status === 404 ? { ...document, problem: messages.none } : document;
  const last = newest(document.value);
  if (last === null) return { ok: false, problem: messages.none, status: 404 };
  return { ok: true, value: { workshop: workshop.value, start: last, dirty: false } };
};

const newest = ({ versions }: ShelfDocument): HeldDraft | null => {
  const last = versions.at(-1);
  return last === undefined || last.document === null ? null : { formula: last.document as unknown as Formula, base: last.version };
};

/** One formula's sheet, which is typed into. `?id=` names it. */
export function SheetPage() {
  const id = useSearchParams().get('id') ?? '';
  const { asked, again } = useAsked(() => openSheet(id), { key: id });
  return (
    <PaperPage foot={messages.title}>
      {asked.state === 'there' ? (
        <Opened key={id} first={asked.value} />
      ) : (
        <PaperTitle title={messages.title}>{asked.state === 'asking' ? <Asking /> : null}</PaperTitle>
      )}
      {asked.state === 'failed' ? <ProblemSection problem={asked.problem} onAgain={again} /> : null}
    </PaperPage>
  );
}

/** What is typed stays, whatever a later answer of the bench machine says. */
function Opened({ first }: { readonly first: Opened }) {
  const [{ start, dirty, workshop }] = useState(first);
  const sheet = useNewSheet(start, dirty, workshop);
  return (
    <SheetProvider value={sheet}>
      <SheetHead />
      <div className={on('unprinted')}>
        <PartSection part="fat" />
        <PartSection part="alkali" />
        <PartSection part="liquid" />
        <LyeSection />
        <CardSection />
        <PartSection part="acid" />
        <PartSection part="fragrance" />
        <PartSection part="extra" />
        <JoiningSection />
        <MouldsSection />
        <ReferencesSection />
      </div>
      <WarningsSection />
      <PlanSection />
      <div className={on('unprinted')}>
        <VersionsSection />
      </div>
    </SheetProvider>
  );
}
