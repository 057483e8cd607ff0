import { on } from './classes';

interface HeadProps {
  readonly name: string;
  /** Stands below the name, so that cells carry figures alone. */
  readonly unit?: string;
  /** Over figures, which stand at the right. */
  readonly n?: boolean;
  /** Left out where there is no room for it. */
  readonly wide?: boolean;
  /** Only for who hears the table. */
  readonly unseen?: boolean;
}

/** The head of one column. */
export function Head({ name, unit, n = false, wide = false, unseen = false }: HeadProps) {
  return (
    <th scope="col" className={on([...(n ? ['n'] : []), ...(wide ? ['wide'] : [])].join(' ')) || undefined}>
      {unseen ? <span className="unseen">{name}</span> : name}
      {unit === undefined ? null : (
        <>
          {' '}
          <i>{unit}</i>
        </>
      )}
    </th>
  );
}
