import type { ReactNode } from 'react';
import { on } from '../classes';
import { keptMessages } from './messages';

interface OpenCellProps {
  readonly name: string;
  readonly isOpen: boolean;
  /** Id of the slip below the row. */
  readonly slip: string;
  readonly onPress: () => void;
}

/** The last cell of a row that opens. */
export function OpenCell({ name, isOpen, slip, onPress }: OpenCellProps) {
  return (
    <td className={on('n')}>
      <button
        type="button"
        className={on('link')}
        aria-expanded={isOpen}
        aria-controls={isOpen ? slip : undefined}
        aria-label={isOpen ? undefined : keptMessages.openSpoken(name)}
        onClick={onPress}
      >
        {isOpen ? keptMessages.close : keptMessages.open}
      </button>
    </td>
  );
}

/** What a row opens to, over the whole width of its table. */
export function Slip({ id, columns, children }: { readonly id: string; readonly columns: number; readonly children: ReactNode }) {
  return (
    <tr className={on('slip')} id={id}>
      <td colSpan={columns}>{children}</td>
    </tr>
  );
}
