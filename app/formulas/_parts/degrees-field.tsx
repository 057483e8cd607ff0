'use client';
import { useState } from 'react';
import { useDisplay } from '../../_live/use';
import { TextField } from '../../_ui/fields';
import { messages } from '../messages-more';
import { celsiusOf, degreesOf } from './degrees';
import type { Degrees } from './degrees';

interface Props {
  readonly id: string;
  /** Without its unit. */
  readonly label: string;
  readonly what: Degrees;
  /** °C or K, as the formula keeps it. */
  readonly value: string;
  readonly error: string;
  readonly onChange: (value: string) => void;
}

/** A temperature in the person's own unit. While it is typed it stands as typed. */
export function DegreesField({ id, label, what, value, error, onChange }: Props) {
  const { temperature: unit } = useDisplay();
  const [typed, setTyped] = useState<string | null>(null);
  const text = typed !== null && celsiusOf(typed, unit, what) === value ? typed : degreesOf(value, unit, what);
  return (
    <TextField
      id={id}
      label={messages.joining.in(label, unit)}
      value={text}
      numeric
      error={error}
      onChange={(next) => {
        setTyped(next);
        onChange(celsiusOf(next, unit, what));
      }}
    />
  );
}
