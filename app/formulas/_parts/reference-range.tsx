'use client';
import { numberOf } from '#lib/work/formula/index';
import type { Reference } from '#lib/work/formula/index';
import { Choice, TextField } from '../../_ui/fields';
import { on } from '../classes';
import { messages } from '../messages-more';
import { isPercent } from './bands';
import { useSheet } from './use-sheet';

const { references: words } = messages;
type Range = Reference['ranges'][number];

interface Props {
  readonly id: string;
  readonly range: Range;
  /** `null`: taken out. */
  readonly put: (next: Range | null, field: string) => void;
}

/** One material of a paper, and between what it may be. An end that is no number is said: the plan cannot be held against it. */
export function ReferenceRange({ id, range, put }: Props) {
  const { formula, materials, rest } = useSheet();
  const { material, low, high } = range;
  const ids = [...new Set([material, ...formula.entries.flatMap((entry) => (entry.material === null ? [] : [entry.material]))])];
  const upsideDown = isPercent(low) && isPercent(high) && (numberOf(low) ?? 0) > (numberOf(high) ?? 0);
  const numberWords = (text: string): string => (isPercent(text) ? '' : words.noNumber);
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
        error={upsideDown ? words.upsideDown : numberWords(low)}
        onChange={(next) => put({ ...range, low: next }, 'low')}
      />
      <TextField
        id={`${id}-high`}
        label={words.high}
        value={high}
        numeric
        error={numberWords(high)}
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
