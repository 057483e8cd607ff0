'use client';
import { useState } from 'react';
import type { InstrumentConfig } from '#lib/measure/instrument';
import type { InstrumentsPage } from '#lib/protocol/http';
import { see } from '../../_live/selectors';
import { useLive } from '../../_live/use';
import { api } from '../../_ui/api';
import { PaperPage } from '../../_ui/paper';
import { Asking, ProblemSection } from '../../_ui/problem';
import { useAsked } from '../../_ui/use-asked';
import { PaperTitle } from '../../_ui/section';
import { messages } from '../messages';
import { Bind } from './bind';
import { HabitsSection } from './habits';
import { EMPTY, OTHER, typedOf } from './binding';
import { Contents } from './contents';
import { CureRule } from './cure-rule';
import { Cutters } from './cutters';
import type { Typed } from './binding';
import { Instruments } from './instruments';
import { Moulds } from './moulds';
import { People } from './people';
import { Ports } from './ports';
import { Practice } from './practice';
import { ProofSection } from './proof';
import { Tablet } from './tablet';
import { ThisScreen } from './this-screen';
import { Vessels } from './vessels';
import type { Put } from './instrument';

const LOOK_EVERY_MS = 2_000;

/** Instruments, ports, practice, a tablet, and what is set on this screen. */
export function SetupPage() {
  const { asked, again, put } = useAsked(api.instruments, { everyMs: LOOK_EVERY_MS });
  // Of a bench machine that no longer answers nothing here is known any more: no port, no phase, no count.
  const gone = useLive(see.link) === 'down';
  const page = asked.state === 'there' && asked.problem === null && !gone ? asked.value : null;
  // That it is gone is said above already.
  const problem = asked.state === 'asking' || gone ? null : asked.problem;
  return (
    <PaperPage foot={messages.title}>
      <PaperTitle
        title={page === null ? messages.title : messages.titles[page.realm]}
        lead={page === null ? undefined : leadOf(page)}
        side={page === null ? null : <p>{messages.realmSide[page.realm]}</p>}
      >
        {asked.state === 'asking' ? <Asking /> : null}
        <Contents realm={page?.realm ?? null} />
      </PaperTitle>
      {problem === null ? null : <ProblemSection problem={problem} onAgain={again} />}
      {page === null ? null : <OfInstruments page={page} put={put} />}
      <Moulds />
      <Vessels />
      <Cutters />
      <CureRule />
      <HabitsSection />
      <People />
      <ProofSection />
      <ThisScreen />
    </PaperPage>
  );
}

const leadOf = (page: InstrumentsPage): string => {
  const { lead } = messages;
  const not = page.instruments.filter(({ status }) => status.phase !== 'live').map(({ config }) => config.name);
  const truth =
    page.instruments.length === 0
      ? lead.none
      : not.length === 0
        ? lead.all(page.instruments.length)
        : lead.not(not, page.instruments.length);
  return `${lead[page.realm]} ${truth}`.trim();
};

function OfInstruments({ page, put }: { readonly page: InstrumentsPage; readonly put: Put }) {
  const [form, setForm] = useState<{ readonly n: number; readonly start: Typed }>({ n: 0, start: EMPTY });
  const fill = (start: Typed): void => {
    setForm({ n: form.n + 1, start });
    document.getElementById('bind')?.scrollIntoView({ block: 'start' });
    document.getElementById('bind-name')?.focus({ preventScroll: true });
  };
  const change = (config: InstrumentConfig): void =>
    fill(
      typedOf(
        config,
        page.ports.map(({ stable }) => stable),
      ),
    );
  const take = (port: string): void => fill({ ...EMPTY, port: page.ports.some(({ stable }) => stable === port) ? port : OTHER });
  const standing = useLive(see.batch);
  const busy = standing !== null && (standing.status === 'weighing' || standing.status === 'joined');
  return (
    <>
      <Instruments page={page} put={put} onChange={change} />
      <Ports page={page} onTake={take} />
      <Bind key={form.n} page={page} start={form.start} put={put} busy={busy} />
      {page.realm === 'practice' ? <Practice page={page} put={put} busy={busy} /> : null}
      <Tablet />
    </>
  );
}
