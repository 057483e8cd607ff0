import { createElement } from 'react';
import type { Order, OrderLine } from '#lib/work/orders/documents';
import type { Outlook } from '#lib/work/orders/outlook';
import { DayOf } from '../../../_ui/day';
import type { Spec } from '../../../_ui/kept/fields';
import type { Kind } from '../../../_ui/kept/kind';
import { at, gather } from '../../../_ui/kept/typed';
import type { Typed } from '../../../_ui/kept/typed';
import { messages } from '../../messages-orders';

const { orders: words } = messages;
/** More bars than a workshop of this kind can mean. */
const MOST = 100_000;
const MOST_SOAPS = 20;

type Named = { readonly id: string; readonly name: string };

const key = (n: number, field: string): string => `wants.${n}.${field}`;

/** How many soaps a form speaks of. */
const filled = (typed: Typed): number => {
  for (let n = MOST_SOAPS; n > 0; n -= 1) {
    if (['formula', 'bars', 'label'].some((field) => at(typed, key(n - 1, field)) !== '')) return n;
  }
  return 0;
};

/** Buyers that still have a name; whoever stands there already stays, so that an erased name changes no order. */
const buyersFor = (typed: Typed, buyers: readonly Named[]): readonly (readonly [string, string])[] => {
  const now = at(typed, 'buyer');
  const gone = now === '' || buyers.some(({ id }) => id === now) ? [] : [[now, words.erased] as const];
  return [['', words.nobody] as const, ...buyers.map(({ id, name }) => [id, name] as const), ...gone];
};

const specsOf = (typed: Typed, formulas: readonly Named[], buyers: readonly Named[]): readonly Spec[] => [
  { kind: 'text', key: 'name', label: words.name, hint: words.nameHint },
  { kind: 'choice', key: 'kind', label: words.kind, options: Object.entries(words.kinds) },
  { kind: 'choice', key: 'buyer', label: words.buyer, options: buyersFor(typed, buyers) },
  { kind: 'text', key: 'due', label: words.due, hint: words.dueHint },
  { kind: 'choice', key: 'state', label: words.state, options: Object.entries(words.states) },
  // One more than there are, so that another can be added by typing it.
  ...Array.from({ length: Math.min(MOST_SOAPS, filled(typed) + 1) }, (_, n): Spec => ({
    kind: 'group',
    key: `group.${n}`,
    fields: [
      {
        kind: 'choice',
        key: key(n, 'formula'),
        label: words.want(n + 1),
        options: [['', words.choose], ...formulas.map(({ id, name }) => [id, name] as const)],
      },
      { kind: 'number', key: key(n, 'bars'), label: words.count },
      { kind: 'number', key: key(n, 'label'), label: words.label, hint: words.asItIs },
    ],
  })),
  { kind: 'lines', key: 'note', label: words.remark },
];

const read = (id: string, typed: Typed) => {
  const form = gather(typed);
  const due = form.day('due', words.badDay);
  const wants = Array.from({ length: filled(typed) }, (_, n): OrderLine => {
    const formula = at(typed, key(n, 'formula'));
    if (formula === '') form.note(key(n, 'formula'), words.oneAtLeast);
    const bars = form.must(key(n, 'bars'), { from: 1, to: MOST, whole: true });
    return { formula, bars: Number(bars), label: form.number(key(n, 'label'), { above: 0, to: MOST }) };
  });
  if (wants.length === 0) form.note(key(0, 'formula'), words.oneAtLeast);
  const kind = at(typed, 'kind') === 'order' ? 'order' : 'market';
  const state = at(typed, 'state');
  const document: Order = {
    id,
    kind,
    name: form.name('name'),
    buyer: at(typed, 'buyer') === '' ? null : at(typed, 'buyer'),
    due,
    wants,
    state: state === 'done' || state === 'dropped' ? state : 'open',
    note: at(typed, 'note'),
  };
  return { document, errors: form.errors, minds: {} };
};

const typedOf = (order: Order | null): Typed => ({
  name: order?.name ?? '',
  kind: order?.kind ?? 'market',
  due: order?.due ?? '',
  state: order?.state ?? 'open',
  buyer: order?.buyer ?? '',
  note: order?.note ?? '',
  ...Object.fromEntries(
    (order?.wants ?? []).flatMap(({ formula, bars, label }, n) => [
      [key(n, 'formula'), formula],
      [key(n, 'bars'), String(bars)],
      [key(n, 'label'), label ?? ''],
    ]),
  ),
});

/** How many of the bars asked for went out. */
const barsText = (id: string, asked: number, stands: Outlook['stands']): string => words.overOf(stands[id]?.over ?? 0, asked);

export const orderKind = (formulas: readonly Named[], buyers: readonly Named[], stands: Outlook['stands']): Kind<Order> => ({
  noun: 'order',
  words,
  heads: [
    { name: words.heads.name },
    { name: words.heads.due },
    { name: words.heads.bars, unit: words.heads.asked, n: true },
    { name: words.heads.state, wide: true },
  ],
  nameOf: ({ name }) => name,
  cells: ({ id, due, wants, state }) => [
    createElement(DayOf, { key: 'due', day: due }),
    barsText(
      id,
      wants.reduce((sum, { bars }) => sum + bars, 0),
      stands,
    ),
    words.states[state],
  ],
  saidOf: ({ name, buyer, due, wants, state, note }) =>
    [
      name,
      // Who has been erased since is not told apart from nobody: a history repeats no names.
      buyers.find(({ id }) => id === buyer)?.name ?? '',
      due,
      ...wants.map(({ formula, bars }) => `${bars} × ${formulas.find(({ id }) => id === formula)?.name ?? formula}`),
      words.states[state],
      note,
    ]
      .filter((text) => text !== '')
      .join('; '),
  typedOf,
  specs: (typed) => specsOf(typed, formulas, buyers),
  read,
});
