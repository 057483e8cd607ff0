'use client';
import type { Reference } from '#lib/work/formula/index';
import { Choice, TextField } from '../../_ui/fields';
import { on } from '../classes';
import { messages } from '../messages-more';
import { useSheet } from './use-sheet';

const { references: words } = messages;
type Range = Reference['ranges'][number];

interface Props {
  readonly id: string;
  /** Where it stands in the formula. */
  readonly path: string;
  readonly range: Range;
  /** `null`: taken out. */
  readonly put: (next: Range | null, field: string) => void;
}

/** One material of a paper, and between what it may be. There is no plan before both ends can be read. */
export function ReferenceRange({ id, path, range, put }: Props) {
  const { formula, materials, rest, wrongIn } = useSheet();
  const { material, low, high } = range;
  const ids = [...new Set([material, ...formula.entries.flatMap((entry) => (entry.material === null ? [] : [entry.material]))])];
  const lowWrong = [wrongIn(`${path}.low`), wrongIn(path)].filter((one) => one !== '').join(' ');
  return (
    <div className={on('form gap')} data-range={material} onBlur={rest}>
      <Choice
        id={`${id}-material`}
        label={words.material}
        value={material}
        options={ids.map((one) => [one, materials.nameOf(one)] as const)}
        onChange={(next) => put({ ...range, material: next }, 'material')}
      />
      <TextField
        id={`${id}-low`}
        label={words.low}
        value={low}
        numeric
        error={lowWrong}
        onChange={(next) => put({ ...range, low: next }, 'low')}
      />
      <TextField
        id={`${id}-high`}
        label={words.high}
        value={high}
        numeric
        error={wrongIn(`${path}.high`)}
        onChange={(next) => put({ ...range, high: next }, 'high')}
      />
      <div className={on('acts')}>
        <button type="button" className={on('link')} onClick={() => put(null, 'remove')}>
          {words.removeRange}
        </button>
      </div>
    </div>
  );
}
