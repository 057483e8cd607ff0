'use client';
import type { Carried } from '#lib/work/shelf/carry';
import type { ShelfList } from '#lib/protocol/shelf';
import { Fields } from '../../_ui/kept/fields';
import type { Typed } from '../../_ui/kept/typed';
import { at } from '../../_ui/kept/typed';
import { shelfApi } from '../../_ui/shelf-api';
import { useAsked } from '../../_ui/use-asked';
import type { Asked } from '../../_ui/use-asked';
import { alongMessages as words } from '../messages-along';
import { on } from './classes';

const KINDS = ['formulas', 'moulds', 'cutters'] as const;
const NO_ERRORS = {};

/** What was ticked. */
export const carriedOf = (typed: Typed): Carried => {
  const ids = (key: (typeof KINDS)[number]): readonly string[] =>
    at(typed, key)
      .split(',')
      .filter((id) => id !== '');
  return { formulas: ids('formulas'), moulds: ids('moulds'), cutters: ids('cutters') };
};

const named = (asked: Asked<ShelfList>): readonly (readonly [string, string])[] =>
  asked.state === 'there'
    ? asked.value.items.map(({ id, document }) => [id, (document as { readonly name?: string }).name ?? id] as const)
    : [];

interface Props {
  readonly typed: Typed;
  readonly onTyped: (typed: Typed) => void;
}

/** Formulas, moulds and cutters that go along to the real workshop; nothing does that nobody ticked. */
export function TakeAlong({ typed, onTyped }: Props) {
  const formulas = named(useAsked(() => shelfApi.list('formula')).asked);
  const moulds = named(useAsked(() => shelfApi.list('mould')).asked);
  const cutters = named(useAsked(() => shelfApi.list('cutter')).asked);
  const options = { formulas, moulds, cutters };
  const specs = KINDS.flatMap((key) =>
    options[key].length === 0 ? [] : [{ kind: 'checks', key, label: words[key], options: options[key] } as const],
  );
  if (specs.length === 0) return null;
  return (
    <details className={on('gap')}>
      <summary className={on('link')}>{words.open}</summary>
      <p className={on('reading')}>{words.note}</p>
      <div className={on('form gap')}>
        <Fields prefix="along" specs={specs} typed={typed} errors={NO_ERRORS} onTyped={(change) => onTyped({ ...typed, ...change })} />
      </div>
    </details>
  );
}
