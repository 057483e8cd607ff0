import { Fragment } from 'react';
import type { ReactNode } from 'react';
import type { ShelfItem } from '#lib/protocol/shelf';
import { on } from '../classes';
import { Head } from '../head';
import { documentOf } from './kind';
import type { Kind } from './kind';
import { keptMessages } from './messages';
import { OpenCell, Slip } from './open-row';

interface TableProps<D> {
  readonly kind: Kind<D>;
  readonly items: readonly ShelfItem[];
  readonly open: string | null;
  readonly onOpen: (id: string | null) => void;
  readonly formOf: (item: ShelfItem) => ReactNode;
}

/** One row for each document; the open one has its form below it. */
export function Table<D>({ kind, items, open, onOpen, formOf }: TableProps<D>) {
  return (
    <table className={on('table')}>
      <caption className="unseen">{kind.words.caption}</caption>
      <thead>
        <tr>
          {kind.heads.map((head) => (
            <Head key={head.name} {...head} />
          ))}
          <Head name={keptMessages.more} unseen />
        </tr>
      </thead>
      <tbody>
        {items.map((item) => {
          const document = documentOf<D>(item);
          const name = kind.nameOf(document);
          const cells = kind.cells(document);
          const isOpen = open === item.id;
          const slip = `${kind.noun}-slip-${item.id}`;
          return (
            <Fragment key={item.id}>
              <tr data-kept={item.id}>
                <th scope="row" className={kind.heads[0]?.nw === true ? on('nw') : undefined}>
                  {name}
                </th>
                {kind.heads.slice(1).map(({ name: head, n = false, wide = false }, index) => (
                  <td key={head} className={on(`${n ? 'n' : ''} ${wide ? 'wide' : ''}`.trim()) || undefined}>
                    {cells[index]}
                  </td>
                ))}
                <OpenCell name={name} isOpen={isOpen} slip={slip} onPress={() => onOpen(isOpen ? null : item.id)} />
              </tr>
              {isOpen ? (
                <Slip id={slip} columns={kind.heads.length + 1}>
                  {formOf(item)}
                </Slip>
              ) : null}
            </Fragment>
          );
        })}
      </tbody>
    </table>
  );
}
