'use client';
import type { ReactNode } from 'react';
import type { ShelfItem } from '#lib/protocol/shelf';
import type { Noun } from '#lib/work/shelf/shelf';
import { on } from '../classes';
import { ProblemSection } from '../problem';
import { PaperSection } from '../section';
import { shelfApi } from '../shelf-api';
import { SHARED_EVERY_MS, useAsked } from '../use-asked';
import { useDrafts } from './drafts';
import { DocumentForm } from './form';
import { documentOf, WHY } from './kind';
import type { Draft, Kind, Reading } from './kind';
import { keptMessages } from './messages';
import { Newer } from './newer';
import { at } from './typed';
import type { Typed } from './typed';
import { useKeeping } from './use-keeping';
import { Versions } from './versions';

/** What a form has to know of a kind of which there is one document: "maker". */
export interface Single<D> extends Pick<Kind<D>, 'specs' | 'saidOf'> {
  readonly noun: Noun;
  readonly title: string;
  readonly note: ReactNode;
  /** What was kept, in a line. */
  readonly kept: string;
  readonly typedOf: (before: D | null) => Typed;
  readonly read: (typed: Typed, before: D | null) => Reading;
  /** After a version was kept here. */
  readonly onKept?: () => void;
}

const ID = 'maker';

/** The one document of a kind as a form, and its versions. */
export function SingleDocument<D>({ single }: { readonly single: Single<D> }) {
  const { asked, again } = useAsked(() => shelfApi.list(single.noun), { everyMs: SHARED_EVERY_MS });
  if (asked.state === 'asking') return null;
  if (asked.state === 'failed') return <ProblemSection problem={asked.problem} onAgain={again} />;
  const [item = null] = asked.value.items;
  return <Form single={single} item={item} again={again} />;
}

function Form<D>({ single, item, again }: { readonly single: Single<D>; readonly item: ShelfItem | null; readonly again: () => void }) {
  const { noun, title, note, kept, specs, saidOf, onKept } = single;
  const before = item === null ? null : documentOf<D>(item);
  const fresh: Draft = { id: ID, typed: single.typedOf(before), base: item?.version ?? 0, tried: false };
  const { all, write, drop } = useDrafts(noun);
  const draft = all[ID] ?? fresh;
  const setDraft = (next: Draft): void => write(ID, () => next);
  const keeping = useKeeping(noun, () => {
    again();
    onKept?.();
  });
  const reading = single.read(draft.typed, before);
  const keep = async (): Promise<void> => {
    setDraft({ ...draft, tried: true });
    if (Object.keys(reading.errors).length > 0) return;
    const { document } = reading;
    if (!(await keeping.keep({ id: ID, name: kept, document, expected: draft.base, note: at(draft.typed, WHY) }))) return;
    drop(ID);
  };
  const bringBack = async (earlier: object, version: number): Promise<void> => {
    await keeping.keep({ id: ID, name: kept, document: earlier, expected: item?.version ?? 0, note: keptMessages.broughtBack(version) });
  };
  return (
    <PaperSection id={noun} name={title} note={note}>
      {item !== null && item.version > draft.base ? <Newer onOver={() => drop(ID)} /> : null}
      <DocumentForm
        kind={{ noun, specs }}
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
            noun={noun}
            id={ID}
            version={item.version}
            saidOf={saidOf}
            onBack={(earlier, version) => void bringBack(earlier, version)}
          />
        </div>
      )}
    </PaperSection>
  );
}
