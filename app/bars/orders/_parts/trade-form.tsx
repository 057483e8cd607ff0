'use client';
import { NO_TRADE } from '#lib/work/orders/documents';
import type { Trade } from '#lib/work/orders/documents';
import type { Spec } from '../../../_ui/kept/fields';
import type { Reading } from '../../../_ui/kept/kind';
import { SingleDocument } from '../../../_ui/kept/single';
import type { Single } from '../../../_ui/kept/single';
import { at, gather } from '../../../_ui/kept/typed';
import type { Typed } from '../../../_ui/kept/typed';
import { messages } from '../../messages-orders';

const { trade: words } = messages;
const MOST = 100_000;

type Named = { readonly id: string; readonly name: string };

interface Props {
  readonly moulds: readonly Named[];
  readonly onKept: () => void;
}

const typedOf = ({ days, batchesADay, shelf, rate, minutes, money, moulds }: Trade): Typed => ({
  days: days.join(','),
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
  { kind: 'checks', key: 'days', label: words.days, options: words.week.map((name, at0) => [String(at0 + 1), name]) },
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

const read = (typed: Typed, moulds: readonly Named[]): Reading => {
  const form = gather(typed);
  const whole = (key: string, from: number, to: number): number | null => count(form.number(key, { from, to, whole: true }));
  const document: Trade = {
    id: 'maker',
    days: at(typed, 'days')
      .split(',')
      .filter((day) => day !== '')
      .map(Number),
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
  return { document, errors: form.errors, minds: {} };
};

const saidOf = ({ days, batchesADay, shelf, minutes, rate, money }: Trade): string =>
  [
    days.map((day) => words.week[day - 1] ?? '').join(', '),
    words.said.batches(batchesADay),
    shelf === null ? '' : words.said.shelf(shelf),
    minutes === null ? '' : words.said.minutes(minutes),
    rate === null ? '' : words.said.rate(rate, money),
  ]
    .filter((text) => text !== '')
    .join('; ');

/** Days, room, rate and moulds: one document. */
export function TradeForm({ moulds, onKept }: Props) {
  const trade: Single<Trade> = {
    noun: 'trade',
    title: words.title,
    note: <p>{words.note}</p>,
    kept: words.kept,
    specs: () => specsOf(moulds),
    typedOf: (before) => typedOf(before ?? NO_TRADE),
    read: (typed) => read(typed, moulds),
    saidOf,
    onKept,
  };
  return <SingleDocument single={trade} />;
}
