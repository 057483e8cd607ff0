'use client';
import { DEVIATIONS, LONGEST_SEARCH } from '#lib/protocol/find';
import type { BatchFind, Deviation } from '#lib/protocol/find';
import { batchesApi } from '../../_ui/batches-api';
import { on } from '../../_ui/classes';
import { Choice, TextField } from '../../_ui/fields';
import { useAsked } from '../../_ui/use-asked';
import { messages } from '../messages';

/** The fields as they are filled in; empty narrows nothing. Days as the browser's own field has them, "2026-04-14". */
export interface Asked {
  readonly words: string;
  readonly formula: string;
  readonly from: string;
  readonly to: string;
  readonly deviation: Deviation | 'any' | '';
}

export const NOTHING_ASKED: Asked = { words: '', formula: '', from: '', to: '', deviation: '' };

/** Midnight on this screen at the beginning of a day, and of the one after it; `undefined` for no day. */
const midnight = (day: string, after = 0): number | undefined => {
  const [year = 0, month = 0, date = 0] = day.split('-').map(Number);
  const at = new Date(year, month - 1, date + after).getTime();
  return day === '' || Number.isNaN(at) || at < 0 ? undefined : at;
};

/** What is asked for, without what narrows nothing. */
export const findOf = ({ words, formula, from, to, deviation }: Asked): BatchFind => {
  const find: BatchFind = {
    words: words.trim() === '' ? undefined : words.trim().slice(0, LONGEST_SEARCH),
    formula: formula === '' ? undefined : formula,
    from: midnight(from),
    to: midnight(to, 1),
    deviation: deviation === '' ? undefined : deviation,
  };
  return Object.fromEntries(Object.entries(find).filter(([, value]) => value !== undefined));
};

const DEVIATION_CHOICES = (['', 'any', ...DEVIATIONS] as const).map((one) => [one, messages.find.deviations[one]] as const);

/** What the list can be narrowed by. */
export function Finder({ asked, onChange }: { readonly asked: Asked; readonly onChange: (asked: Asked) => void }) {
  const { find } = messages;
  const { asked: names } = useAsked(batchesApi.formulas);
  const formulas = names.state === 'there' ? names.value.formulas : [];
  const set = (some: Partial<Asked>): void => onChange({ ...asked, ...some });
  return (
    <search className={on('form')}>
      <TextField id="words" label={find.words} hint={find.hint} value={asked.words} onChange={(words) => set({ words })} />
      <Choice
        id="formula"
        label={find.formula}
        value={asked.formula}
        options={[['', find.every], ...formulas.map((name) => [name, name] as const)]}
        onChange={(formula) => set({ formula })}
      />
      <Day id="from" label={find.from} value={asked.from} onChange={(from) => set({ from })} />
      <Day id="to" label={find.to} value={asked.to} onChange={(to) => set({ to })} />
      <Choice
        id="deviation"
        label={find.deviation}
        value={asked.deviation}
        options={DEVIATION_CHOICES}
        onChange={(deviation) => set({ deviation })}
      />
    </search>
  );
}

interface DayProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
}

function Day({ id, label, value, onChange }: DayProps) {
  return (
    <div>
      <label className={on('label')} htmlFor={id}>
        {label}
      </label>
      <input className={on('field')} id={id} type="date" value={value} onChange={(event) => onChange(event.target.value)} />
    </div>
  );
}
