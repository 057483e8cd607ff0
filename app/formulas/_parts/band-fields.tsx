'use client';
import type { Band } from '#lib/work/formula/index';
import { TextField } from '../../_ui/fields';
import { bandWith } from './bands';
import type { End } from './bands';
import { DegreesField } from './degrees-field';
import { useSheet } from './use-sheet';

const ENDS: readonly End[] = ['low', 'high'];

interface Props {
  readonly id: string;
  /** Where it stands in the formula. */
  readonly path: string;
  readonly words: Readonly<Record<End, string>>;
  /** Temperatures, in the person's own unit. */
  readonly degrees?: boolean;
  readonly band: Band | null;
  readonly onChange: (band: Band | null, end: End) => void;
}

/** The two ends of a band; both empty: not said. */
export function BandFields({ id, path, words, degrees = false, band, onChange }: Props) {
  const { wrongIn, rest } = useSheet();
  return ENDS.map((end) => {
    const field = {
      id: `${id}-${end}`,
      label: words[end],
      value: band?.[end] ?? '',
      error: [wrongIn(`${path}.${end}`), ...(end === 'low' ? [wrongIn(path)] : [])].filter((one) => one !== '').join(' '),
      onChange: (text: string) => onChange(bandWith(band, end, text), end),
    };
    return (
      <div key={end} onBlur={rest}>
        {degrees ? <DegreesField {...field} what="point" /> : <TextField {...field} numeric />}
      </div>
    );
  });
}
