import { isDay } from '#lib/units/day';
import { numberOf } from '../formula/index';
import type { Goods, Order, Trade } from './documents';

/** A field and what is wrong with it, in a sentence. */
export interface Said {
  readonly path: string;
  readonly says: string;
}

const amount = (path: string, text: string | null, above: boolean): readonly Said[] => {
  if (text === null) return [];
  const value = numberOf(text);
  if (value === null) return [{ path, says: `“${text}” is no number.` }];
  if (value < 0 || (above && value === 0))
    return [{ path, says: above ? 'More than nothing is needed here.' : 'Less than nothing cannot be.' }];
  return value > 1e9 ? [{ path, says: 'So much cannot be meant.' }] : [];
};

/** Days are worked back from it and forward: a slip of the year is meant by nobody. */
const [FIRST, LAST] = ['2000-01-01', '2199-12-31'];

const dueSaid = (due: string): string | null => {
  if (!isDay(due)) return 'This day is in no calendar.';
  return due < FIRST || due > LAST ? 'Look at the year again.' : null;
};

export const checkOrder = ({ due, wants }: Order): readonly Said[] => [
  ...[dueSaid(due)].flatMap((says) => (says === null ? [] : [{ path: 'due', says }])),
  ...wants.flatMap(({ label }, at) => amount(`wants.${at}.label`, label, true)),
];

export const checkTrade = ({ days, rate }: Trade): readonly Said[] => [
  ...(new Set(days).size === days.length ? [] : [{ path: 'days', says: 'A day of the week stands here twice.' }]),
  ...amount('rate', rate, false),
];

export const checkGoods = ({ kind, name, pack, price, perBar, lots = [] }: Goods): readonly Said[] => [
  ...(kind === 'wrap' && name.trim() === '' ? [{ path: 'name', says: 'A wrap needs a name.' }] : []),
  ...amount('pack', pack, true),
  ...amount('price', price, false),
  ...amount('perBar', perBar, false),
  ...lots.flatMap(({ mark, price: own }, at) => [
    ...(lots.findIndex((one) => one.mark === mark) === at ? [] : [{ path: `lots.${at}.mark`, says: 'Another lot of it bears this mark.' }]),
    ...amount(`lots.${at}.price`, own, false),
  ]),
];
