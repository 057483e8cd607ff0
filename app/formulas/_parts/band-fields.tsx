'use client';
import type { Band } from '#lib/work/formula/index';
import { TextField } from '../../_ui/fields';
import { bandWith } from './bands';
import type { End } from './bands';
import { useSheet } from './use-sheet';

const ENDS: readonly End[] = ['low', 'high'];

interface Props {
  readonly id: string;
  /** Where it stands in the formula. */
  readonly path: string;
  readonly words: Readonly<Record<End, string>>;
  readonly band: Band | null;
  readonly onChange: (band: Band | null, end: End) => void;
}

/** The two ends of a band; both empty: not said. */
export function BandFields({ id, path, words, band, onChange }: Props) {
  const { wrongIn, rest } = useSheet();
  return ENDS.map((end) => (
    <div key={end} onBlur={rest}>
      <TextField
        id={`${id}-${end}`}
        label={words[end]}
        value={band?.[end] ?? ''}
        numeric
        error={[wrongIn(`${path}.${end}`), ...(end === 'low' ? [wrongIn(path)] : [])].filter((one) => one !== '').join(' ')}
        onChange={(text) => onChange(bandWith(band, end, text), end)}
      />
    </div>
  ));
}
