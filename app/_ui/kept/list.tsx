'use client';
import { useState } from 'react';
import type { ReactNode } from 'react';
import type { ShelfItem } from '#lib/protocol/shelf';
import { on } from '../classes';
import { freshId } from '../fresh-id';
import { Problem } from '../problem';
import { PaperSection } from '../section';
import { Away } from './away';
import { useDrafts } from './drafts';
import { DocumentForm } from './form';
import type { Draft, Kind } from './kind';
import { documentOf, WHY } from './kind';
import { keptMessages } from './messages';
import { Newer } from './newer';
import { Table } from './table';
import type { Typed } from './typed';
import { at } from './typed';
import type { Keeping } from './use-keeping';
import { useKeeping } from './use-keeping';
import { Versions } from './versions';

const NEW = '';

interface Props<D> {
  readonly kind: Kind<D>;
  readonly items: readonly ShelfItem[];
  /** What was put away, newest first. */
  readonly away: readonly ShelfItem[];
  /** Asks for the list again. */
  readonly again: () => void;
}

/** What is kept of one kind: each opens to its form; another is added below; what is put away can be taken out again. */
export function KeptList<D>({ kind, items, away, again }: Props<D>) {
  const [open, setOpen] = useState<string | null>(null);
  const { all: drafts, write: writeDraft, drop } = useDrafts(kind.noun);
  const keeping = useKeeping(kind.noun, again);
  const show = (id: string | null): void => {
    keeping.forget();
    setOpen(id);
  };
  const draftOf = (item: ShelfItem | null): Draft =>
    drafts[item?.id ?? NEW] ?? {
      id: item?.id ?? NEW,
      typed: kind.typedOf(item === null ? null : documentOf<D>(item)),
      base: item?.version ?? 0,
      tried: false,
    };
  /** An earlier version as the next one; what was typed above it stays on this screen. */
  const bringBack = async (item: ShelfItem, earlier: object, version: number): Promise<void> => {
    const name = kind.nameOf(earlier as D);
    const note = keptMessages.broughtBack(version);
    await keeping.keep({ id: item.id, name, document: earlier, expected: item.version, note });
  };
  const formOf = (item: ShelfItem | null): ReactNode => {
    const key = item?.id ?? NEW;
    const draft = draftOf(item);
    const write = (change: (before: Draft) => Draft): void => writeDraft(key, (before) => change(before ?? draft));
    const reading = kind.read(draft.id, draft.typed);
    const keep = async (): Promise<void> => {
      // Named once: a save tried twice is one.
      const id = draft.id === NEW ? freshId(kind.noun) : draft.id;
      write((before) => ({ ...before, id, tried: true }));
      if (Object.keys(reading.errors).length > 0) return;
      const document = { ...reading.document, id };
      const asked = { id, name: kind.nameOf(document as unknown as D), document, expected: draft.base, note: at(draft.typed, WHY) };
      if (!(await keeping.keep(asked))) return;
      drop(key);
      setOpen(null);
    };
    const onTyped = (change: Typed): void => write((before) => ({ ...before, typed: { ...before.typed, ...change } }));
    return (
      <>
        {item !== null && item.version > draft.base ? <Newer onOver={() => drop(key)} /> : null}
        <DocumentForm kind={kind} draft={draft} reading={reading} keeping={keeping} onTyped={onTyped} onKeep={() => void keep()}>
          {item === null ? (
            <button type="button" className={on('act')} onClick={() => show(null)}>
              {keptMessages.close}
            </button>
          ) : (
            <PutAway item={item} name={kind.nameOf(documentOf<D>(item))} keeping={keeping} onGone={() => setOpen(null)} />
          )}
        </DocumentForm>
        {item === null || item.version === 1 ? null : (
          <Earlier item={item} kind={kind} onBack={(earlier, version) => void bringBack(item, earlier, version)} />
        )}
      </>
    );
  };
  return (
    <PaperSection id={kind.noun} name={kind.words.title} note={<p>{kind.words.note}</p>}>
      {items.length === 0 ? (
        <p className={on('reading')}>{kind.words.empty}</p>
      ) : (
        <Table kind={kind} items={items} open={open} onOpen={show} formOf={formOf} />
      )}
      {open === NEW ? (
        <div className={on('slip')}>{formOf(null)}</div>
      ) : (
        <div className={on('acts')}>
          <button type="button" className={on('act')} onClick={() => show(NEW)}>
            {kind.words.add}
          </button>
        </div>
      )}
      <Begun kind={kind} items={items} drafts={drafts} open={open} onOpen={show} />
      <Said keeping={keeping} open={open !== null} />
      <Away noun={kind.noun} items={away} nameOf={(document) => kind.nameOf(document as D)} onBack={again} />
    </PaperSection>
  );
}

function PutAway({
  item,
  name,
  keeping,
  onGone,
}: {
  readonly item: ShelfItem;
  readonly name: string;
  readonly keeping: Keeping;
  readonly onGone: () => void;
}) {
  const put = async (): Promise<void> => {
    await keeping.putAway({ id: item.id, name, version: item.version, document: documentOf<object>(item) });
    onGone();
  };
  return (
    <button type="button" className={on('act')} disabled={keeping.waits} onClick={() => void put()}>
      {keptMessages.away}
    </button>
  );
}

interface EarlierProps<D> {
  readonly item: ShelfItem;
  readonly kind: Kind<D>;
  readonly onBack: (earlier: object, version: number) => void;
}

function Earlier<D>({ item, kind, onBack }: EarlierProps<D>) {
  const [shown, setShown] = useState(false);
  if (shown) return <Versions noun={kind.noun} id={item.id} version={item.version} saidOf={kind.saidOf} onBack={onBack} />;
  return (
    <p className={on('gap')}>
      <button type="button" className={on('link')} onClick={() => setShown(true)}>
        {keptMessages.versions.show(item.version - 1)}
      </button>
    </p>
  );
}

interface BegunProps<D> {
  readonly kind: Kind<D>;
  readonly items: readonly ShelfItem[];
  readonly drafts: Readonly<Record<string, Draft>>;
  readonly open: string | null;
  readonly onOpen: (id: string) => void;
}

/** What was begun on this screen and lies under a closed form. */
function Begun<D>({ kind, items, drafts, open, onOpen }: BegunProps<D>) {
  const begun = Object.entries(drafts).flatMap(([key, { typed }]) => {
    const item = items.find(({ id }) => id === key);
    if (key === open || (key !== NEW && item === undefined)) return [];
    const name = item === undefined ? at(typed, 'name') || at(typed, 'mark') : kind.nameOf(documentOf<D>(item));
    return [{ key, name: name === '' ? keptMessages.begunNew : name }];
  });
  return begun.length === 0 ? null : (
    <p className={on('gap')}>
      {keptMessages.begun}{' '}
      {begun.map(({ key, name }) => (
        <button key={key} type="button" className={on('link')} onClick={() => onOpen(key)}>
          {name}
        </button>
      ))}
    </p>
  );
}

/** What came of the last act, with the way back where there is one. */
function Said({ keeping, open }: { readonly keeping: Keeping; readonly open: boolean }) {
  const { said, away, problem } = keeping;
  return (
    <>
      <p className={on('gap')}>
        <output>{said}</output>{' '}
        {away === null ? null : (
          <button type="button" className={on('link')} onClick={() => void keeping.takeBack()}>
            {keptMessages.back}
          </button>
        )}
      </p>
      {problem === null || open ? null : <Problem problem={problem} />}
    </>
  );
}
