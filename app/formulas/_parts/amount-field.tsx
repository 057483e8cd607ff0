'use client';
import { useState } from 'react';
import type { Amount, Part } from '#lib/work/formula/index';
import { on } from '../classes';
import { MEASURES, messages } from '../messages-sheet';
import type { Measure } from '../messages-sheet';
import { amountIn, measureOf, measuresOf, textOf, typedAmount } from './amount';

interface Props {
  readonly id: string;
  readonly name: string;
  readonly part: Part;
  readonly amount: Amount | null;
  readonly blended?: boolean;
  readonly pours: boolean;
  readonly wrong: string;
  readonly onChange: (amount: Amount | null) => void;
  readonly onLeave: () => void;
  /** What it may mean is being asked, or no more: until it is answered nothing else is wrong with it. */
  readonly onAsk?: (asking: boolean) => void;
}

/** How much: as written, with its measure beside it. What may mean two things is asked, not guessed. */
export function AmountField({ id, name, part, amount, blended = false, pours, wrong, onChange, onLeave, onAsk }: Props) {
  const [typing, setTyping] = useState<string | null>(null);
  const [choices, setChoices] = useState<readonly Amount[]>([]);
  const [first] = measuresOf(part, blended);
  const [chosen, setChosen] = useState<Measure>(first === 'rest' ? 'percent' : (first ?? 'g'));
  const measure = amount === null ? chosen : measureOf(amount);
  const measures = measuresOf(part, blended);
  const shown = measures.includes(measure) ? measures : [...measures, measure];
  const ask = (next: readonly Amount[]): void => {
    setChoices(next);
    onAsk?.(next.length > 0);
  };
  const type = (text: string): void => {
    // Over "what is left" an amount may be typed: in its own unit, or as the share of its part.
    const meant = measure === 'rest' ? (measures.find((one) => one !== 'rest') ?? measure) : measure;
    const typed = typedAmount(text, meant, pours);
    setTyping(text);
    setChosen(meant);
    ask(typed.choices);
    onChange(typed.amount);
  };
  const take = (one: Amount): void => {
    ask([]);
    setTyping(null);
    onChange(one);
  };
  return (
    <>
      <span className={on('pair')}>
        <input
          id={id}
          className={on('field')}
          aria-label={messages.amountOf(name)}
          value={typing ?? textOf(amount)}
          autoComplete="off"
          spellCheck={false}
          aria-invalid={wrong !== ''}
          aria-describedby={wrong === '' ? undefined : `${id}-wrong`}
          onChange={(event) => type(event.target.value)}
          onBlur={() => {
            setTyping(null);
            onLeave();
          }}
        />
        <select
          className={on('field')}
          aria-label={messages.measureOf(name)}
          value={measure}
          onChange={(event) => {
            const next = shown.find((one) => one === event.target.value) ?? measure;
            setChosen(next);
            take(amountIn(textOf(amount), next));
          }}
        >
          {shown.map((one) => (
            <option key={one} value={one}>
              {MEASURES[one]}
            </option>
          ))}
        </select>
      </span>
      {choices.length === 0 ? null : (
        <span className={on('dim')} aria-live="polite">
          {messages.whichOne}{' '}
          {choices.map((one) => (
            <button key={messages.said(one)} type="button" className={on('link')} onClick={() => take(one)}>
              {messages.said(one)}
            </button>
          ))}
        </span>
      )}
    </>
  );
}
