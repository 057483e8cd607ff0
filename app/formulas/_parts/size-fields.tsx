'use client';
import type { MassUnit } from '#lib/units/mass';
import type { Size } from '#lib/work/formula/index';
import { Choice, TextField } from '../../_ui/fields';
import { messages } from '../messages-sheet';
import { CountField } from './count-field';

type Kind = keyof typeof messages.size.kinds;
const UNITS: readonly MassUnit[] = ['g', 'kg', 'oz', 'lb'];
const OPTIONS = Object.entries(messages.size.kinds) as [Kind, string][];

interface Props {
  readonly id: string;
  readonly size: Size | null;
  /** In words, for `null`. */
  readonly typed?: string;
  readonly wrong: (place: string) => string;
  readonly onChange: (size: Size | null, field: string) => void;
}

const sizeOf = (kind: Kind, before: Size | null): Size | null => {
  if (kind === 'typed') return null;
  if (kind === 'moulds') return { kind };
  const { value, unit } = before !== null && before.kind !== 'moulds' ? before : { value: '', unit: 'g' as const };
  return kind === 'bars' ? { kind, count: 0, value: '', unit: 'g' } : { kind, value, unit };
};

/** How large the batch is: by its oils, its batter, bars or moulds. */
export function SizeFields({ id, size, typed = messages.size.kinds.typed, wrong, onChange }: Props) {
  const { size: words } = messages;
  const kind: Kind = size === null ? 'typed' : size.kind;
  return (
    <>
      <Choice
        id={`${id}-kind`}
        label={words.kind}
        value={kind}
        options={OPTIONS.map(([one, name]) => [one, one === 'typed' ? typed : name])}
        error={wrong('size')}
        onChange={(next) => onChange(sizeOf(next, size), 'kind')}
      />
      {size?.kind === 'bars' ? (
        <CountField
          id={`${id}-count`}
          label={words.count}
          count={size.count}
          error={wrong('size.count')}
          onChange={(count) => onChange({ ...size, count }, 'count')}
        />
      ) : null}
      {size === null || size.kind === 'moulds' ? null : (
        <>
          <TextField
            id={`${id}-value`}
            label={size.kind === 'bars' ? words.each : words.value}
            value={size.value}
            numeric
            error={wrong('size.value')}
            onChange={(value) => onChange({ ...size, value }, 'value')}
          />
          <Choice
            id={`${id}-unit`}
            label={words.unit}
            value={size.unit}
            options={UNITS.map((unit) => [unit, unit] as const)}
            onChange={(unit) => onChange({ ...size, unit }, 'unit')}
          />
        </>
      )}
    </>
  );
}
