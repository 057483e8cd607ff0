'use client';
import { useState } from 'react';
import type { CuredFit } from '#lib/soap/cut';
import type { CutterKept } from '#lib/work/bars/documents';
import { on } from '../../_ui/classes';
import { TextField } from '../../_ui/fields';
import { Problem } from '../../_ui/problem';
import { lotMessages } from '../messages-lot';
import { numberIn } from './cut-model';
import type { CutTyped } from './cut-model';
import type { LotProps } from './lot-props';
import { useWant } from './use-want';

interface Props extends LotProps {
  /** `null`: the mould gives bars as they are. */
  readonly fit: CuredFit | null;
  readonly cutter: CutterKept | null;
  readonly typed: CutTyped | null;
}

const whole = (text: string): number | null => {
  const value = numberIn(text);
  return value !== null && Number.isInteger(value) && value >= 0 ? value : null;
};
const um = (mm: number): number => Math.round(mm * 1000);
const mg = (grams: number | null): number | null => (grams === null || grams <= 0 ? null : Math.round(grams * 1000));

/** How many came of it, and what is not sold; then it is in the record. */
export function CutAct({ page, again, fit, cutter, typed }: Props) {
  const { row, state } = page;
  const made = fit === null ? row.mould.cavities * row.moulds : fit.bars * row.moulds;
  const [count, setCount] = useState<string | null>(null);
  const [ends, setEnds] = useState<string | null>(null);
  const [testers, setTesters] = useState('0');
  const wanting = useWant(row, again);
  const { cut } = lotMessages;
  const tried = whole(testers);
  // Testers are bars that are not sold.
  const usual = String(Math.max(0, made - (tried ?? 0)));
  const [bars, aside] = [whole(count ?? usual), whole(ends ?? String((fit?.ends.length ?? 0) * row.moulds))];
  const ready = bars !== null && bars > 0 && aside !== null && tried !== null;
  const enter = async (): Promise<void> => {
    if (!ready) return;
    const length = typed === null ? null : numberIn(typed.length);
    await wanting.want({
      kind: 'cut',
      cutter: { id: cutter?.id ?? null, name: cutter?.name ?? '', kind: fit === null ? 'none' : (cutter?.kind ?? 'adjustable') },
      count: bars,
      ends: aside,
      testers: tried,
      thickness: fit === null ? null : um(fit.thickness),
      log:
        typed === null || length === null
          ? null
          : { length: um(length), trim: um(numberIn(typed.trim) ?? 0), kerf: um(numberIn(typed.kerf) ?? 0) },
      mass: fit === null ? mg(state.batter === null ? null : state.batter / 1000 / made) : mg(fit.cutMass),
    });
  };
  const error = (value: number | null): string => (value === null ? cut.wholeNumber : '');
  return (
    <div className={on('form gap')}>
      <TextField id="cut-count" label={cut.count} value={count ?? usual} error={error(bars)} numeric onChange={setCount} />
      <TextField
        id="cut-ends-left"
        label={cut.endsLeft}
        value={ends ?? String((fit?.ends.length ?? 0) * row.moulds)}
        error={error(aside)}
        numeric
        onChange={setEnds}
      />
      <TextField id="cut-testers" label={cut.testers} value={testers} error={error(tried)} numeric onChange={setTesters} />
      <div className={on('acts whole')}>
        <button type="button" className={on('act first')} disabled={!ready || wanting.busy} onClick={() => void enter()}>
          {fit === null ? cut.asTheyAre(bars ?? made) : cut.act(bars ?? made)}
        </button>
      </div>
      {wanting.problem === null ? null : (
        <div className={on('whole')}>
          <Problem problem={wanting.problem} />
        </div>
      )}
    </div>
  );
}
