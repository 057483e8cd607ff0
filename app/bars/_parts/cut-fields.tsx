'use client';
import type { CutterKept } from '#lib/work/bars/documents';
import { Choice, TextField } from '../../_ui/fields';
import { on } from '../../_ui/classes';
import { lotMessages } from '../messages-lot';
import type { CutTyped } from './cut-model';

interface Props {
  readonly typed: CutTyped;
  readonly cutters: readonly CutterKept[];
  readonly onTyped: (change: Partial<CutTyped>) => void;
  readonly onCutter: (id: string) => void;
}

const ENDS = [
  ['0', '0'],
  ['1', '1'],
  ['2', '2'],
] as const;

/** Log, cutter and label as typed; what the chosen cutter is known for is filled in. */
export function CutFields({ typed, cutters, onTyped, onCutter }: Props) {
  const { cut } = lotMessages;
  const fixed = cutters.find(({ id }) => id === typed.cutter)?.kind === 'fixed';
  const number = (key: 'length' | 'mass' | 'trim' | 'kerf' | 'least' | 'most' | 'label', label: string, hint = '') => (
    <TextField id={`cut-${key}`} label={label} value={typed[key]} hint={hint} numeric onChange={(value) => onTyped({ [key]: value })} />
  );
  return (
    <div className={on('form')}>
      <Choice
        id="cut-cutter"
        label={cut.cutter}
        value={typed.cutter}
        options={[...cutters.map(({ id, name }) => [id, name] as const), ['', cut.byHand] as const]}
        onChange={onCutter}
      />
      {number('length', cut.length)}
      {number('mass', cut.mass)}
      {number('trim', cut.trim)}
      {number('kerf', cut.kerf)}
      <Choice id="cut-ends" label={cut.ends} value={typed.ends} options={ENDS} onChange={(ends) => onTyped({ ends })} />
      {fixed ? null : number('least', cut.least)}
      {fixed ? null : number('most', cut.most)}
      {number('label', cut.label, cut.optional)}
    </div>
  );
}
