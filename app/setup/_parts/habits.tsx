'use client';
import type { ShelfItem } from '#lib/protocol/shelf';
import type { Habits } from '#lib/work/shelf/documents';
import { useDrafts } from '../../_ui/kept/drafts';
import { DocumentForm } from '../../_ui/kept/form';
import { documentOf, WHY } from '../../_ui/kept/kind';
import type { Draft } from '../../_ui/kept/kind';
import { keptMessages } from '../../_ui/kept/messages';
import { Newer } from '../../_ui/kept/newer';
import { at } from '../../_ui/kept/typed';
import { useKeeping } from '../../_ui/kept/use-keeping';
import { Versions } from '../../_ui/kept/versions';
import { ProblemSection } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { shelfApi } from '../../_ui/shelf-api';
import { SHARED_EVERY_MS, useAsked } from '../../_ui/use-asked';
import { workshop } from '../messages-workshop';
import { habitSpecs, readHabits, saidHabits, typedHabits } from './habits-form';
import { on } from './classes';

/** How this maker works: one document, and its versions. */
export function HabitsSection() {
  const { asked, again } = useAsked(() => shelfApi.list('habits'), { everyMs: SHARED_EVERY_MS });
  if (asked.state === 'asking') return null;
  if (asked.state === 'failed') return <ProblemSection problem={asked.problem} onAgain={again} />;
  const [item = null] = asked.value.items;
  return <Form item={item} again={again} />;
}

function Form({ item, again }: { readonly item: ShelfItem | null; readonly again: () => void }) {
  const { habits: words } = workshop;
  const before = item === null ? null : documentOf<Habits>(item);
  const fresh: Draft = { id: 'maker', typed: typedHabits(before), base: item?.version ?? 0, tried: false };
  const { all, write, drop } = useDrafts('habits');
  const draft = all['maker'] ?? fresh;
  const setDraft = (next: Draft): void => write('maker', () => next);
  const keeping = useKeeping('habits', again);
  const reading = readHabits(draft.typed, before);
  const keep = async (): Promise<void> => {
    setDraft({ ...draft, tried: true });
    if (Object.keys(reading.errors).length > 0) return;
    const { document } = reading;
    if (!(await keeping.keep({ id: 'maker', name: words.kept, document, expected: draft.base, note: at(draft.typed, WHY) }))) return;
    drop('maker');
  };
  const bringBack = async (earlier: object, version: number): Promise<void> => {
    const note = keptMessages.broughtBack(version);
    await keeping.keep({ id: 'maker', name: words.kept, document: earlier, expected: item?.version ?? 0, note });
  };
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      {item !== null && item.version > draft.base ? <Newer onOver={() => drop('maker')} /> : null}
      <DocumentForm
        kind={{ noun: 'habits', specs: habitSpecs }}
        draft={draft}
        reading={reading}
        keeping={keeping}
        onTyped={(change) => setDraft({ ...draft, typed: { ...draft.typed, ...change } })}
        onKeep={() => void keep()}
      />
      <p className={on('gap')}>
        <output>{keeping.said}</output>
      </p>
      {item === null ? null : (
        <div className={on('gap')}>
          <Versions
            noun="habits"
            id="maker"
            version={item.version}
            saidOf={saidHabits}
            onBack={(earlier, version) => void bringBack(earlier, version)}
          />
        </div>
      )}
    </PaperSection>
  );
}
