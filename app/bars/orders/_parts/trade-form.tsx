'use client';
import { useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import type { Trade } from '#lib/work/orders/documents';
import { on } from '../../../_ui/classes';
import { Fields } from '../../../_ui/kept/fields';
import type { Spec } from '../../../_ui/kept/fields';
import { at, gather } from '../../../_ui/kept/typed';
import type { Typed } from '../../../_ui/kept/typed';
import { Problem } from '../../../_ui/problem';
import { PaperSection } from '../../../_ui/section';
import { shelfApi } from '../../../_ui/shelf-api';
import { messages } from '../../messages-orders';

const { trade: words } = messages;
const MOST = 100_000;

type Named = { readonly id: string; readonly name: string };

interface Props {
  readonly trade: Trade;
  readonly version: number;
  readonly moulds: readonly Named[];
  readonly onKept: () => void;
}

const typedOf = ({ batchesADay, shelf, rate, minutes, money, moulds }: Trade): Typed => ({
  batchesADay: String(batchesADay),
  shelf: shelf === null ? '' : String(shelf),
  rate: rate ?? '',
  minutes: minutes === null ? '' : String(minutes),
  money,
  ...Object.fromEntries(
    Object.entries(moulds).flatMap(([id, { owned, bars }]) => [
      [`owned.${id}`, String(owned)],
      [`bars.${id}`, bars === null ? '' : String(bars)],
    ]),
  ),
});

const specsOf = (moulds: readonly Named[]): readonly Spec[] => [
  { kind: 'number', key: 'batchesADay', label: words.batchesADay },
  { kind: 'number', key: 'shelf', label: words.shelf },
  { kind: 'number', key: 'minutes', label: words.minutes },
  { kind: 'number', key: 'rate', label: words.rate },
  { kind: 'text', key: 'money', label: words.money, hint: words.moneyHint },
  ...moulds.map(({ id, name }): Spec => ({
    kind: 'group',
    key: `mould.${id}`,
    fields: [
      { kind: 'number', key: `owned.${id}`, label: words.owned(name), hint: '1' },
      { kind: 'number', key: `bars.${id}`, label: words.each(name), hint: words.learnt },
    ],
  })),
];

const count = (text: string | null): number | null => (text === null ? null : Number(text));

const read = (typed: Typed, days: readonly number[], moulds: readonly Named[]) => {
  const form = gather(typed);
  const whole = (key: string, from: number, to: number): number | null => count(form.number(key, { from, to, whole: true }));
  const document: Trade = {
    id: 'maker',
    days,
    batchesADay: Number(form.must('batchesADay', { from: 1, to: 20, whole: true })),
    shelf: whole('shelf', 0, MOST),
    rate: form.number('rate', { from: 0, to: MOST }),
    minutes: whole('minutes', 0, 10_000),
    money: at(typed, 'money').slice(0, 8),
    moulds: Object.fromEntries(
      moulds.flatMap(({ id }) => {
        const [owned, bars] = [whole(`owned.${id}`, 0, 1000), whole(`bars.${id}`, 1, MOST)];
        return owned === null && bars === null ? [] : [[id, { owned: owned ?? 1, bars }]];
      }),
    ),
  };
  return { document, errors: form.errors };
};

/** Days, room, rate and moulds: one document. */
export function TradeForm({ trade, version, moulds, onKept }: Props) {
  const [typed, setTyped] = useState<Typed>(() => typedOf(trade));
  const [days, setDays] = useState<readonly number[]>(trade.days);
  const [said, setSaid] = useState('');
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const { document, errors } = read(typed, days, moulds);
  const keep = async (): Promise<void> => {
    const answer = await shelfApi.put('trade', 'maker', version, document);
    setProblem(answer.ok ? null : answer.problem);
    if (!answer.ok) return;
    setSaid(words.saved);
    onKept();
  };
  const turn = (day: number): void =>
    setDays(days.includes(day) ? days.filter((one) => one !== day) : [...days, day].toSorted((a, b) => a - b));
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      <div className={on('form')}>
        <fieldset className={on('radios whole')}>
          <legend className={on('label')}>{words.days}</legend>
          {words.week.map((name, at0) => (
            <label key={name}>
              <input type="checkbox" checked={days.includes(at0 + 1)} onChange={() => turn(at0 + 1)} /> {name}
            </label>
          ))}
        </fieldset>
        <Fields
          prefix="trade"
          specs={specsOf(moulds)}
          typed={typed}
          errors={errors}
          onTyped={(change) => setTyped({ ...typed, ...change })}
        />
      </div>
      {problem === null ? null : <Problem problem={problem} />}
      <div className={on('acts')}>
        <button type="button" className={on('act first')} disabled={Object.keys(errors).length > 0} onClick={() => void keep()}>
          {words.save}
        </button>
        <output>{said}</output>
      </div>
    </PaperSection>
  );
}
