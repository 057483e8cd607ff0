import { grams } from '#lib/units/mass';
import { readNumber } from '#lib/units/parse';
import type { Lot, LotUse } from '#lib/work/formula/index';
import { isGtin, looksLikeGs1, readScan } from '#lib/work/lots/gs1';
import { at, dayTyped } from '../../_ui/kept/typed';
import type { Gather, Typed } from '../../_ui/kept/typed';
import { lotMessages as words } from '../messages-lots';

/** A tonne, g. */
const MOST_G = 1_000_000;
const STATES: readonly LotUse[] = ['in-use', 'quarantined', 'used-up'];

/** Grams as a document's milligrams read. */
export const gramsText = (milligrams: number | undefined): string => (milligrams === undefined ? '' : String(milligrams / 1000));

type Adjustment = NonNullable<Lot['adjustments']>[number];

/** How a lot came, until when it may be used and what of it was put right, as typed. */
export const typedReceived = (lot: Lot | null): Typed => ({
  supplier: lot?.supplier ?? '',
  'received.day': lot?.received?.day ?? '',
  'received.amount': gramsText(lot?.received?.amount),
  opened: lot?.opened ?? '',
  bestBefore: lot?.bestBefore ?? '',
  state: lot?.state ?? 'in-use',
  why: lot?.why ?? '',
  gtin: lot?.gtin ?? '',
  adjustments: (lot?.adjustments ?? []).map(({ day, mass, why }) => `${day} ${gramsText(mass)} ${why}`).join('\n'),
});

/** Only what was said: a key that says nothing is left out, as in documents of an older program. */
export const readReceived = (typed: Typed, read: Gather): Partial<Lot> => {
  const day = (key: string): string | undefined => {
    return at(typed, key) === '' ? undefined : read.day(key, words.badDay);
  };
  const came = day('received.day');
  const much = read.number('received.amount', { above: 0, to: MOST_G });
  if (much !== null && came === undefined) read.note('received.day', words.dayFirst);
  const amount = much === null || !(Number(much) > 0) ? undefined : grams(Number(much));
  const state = STATES.find((one) => one === at(typed, 'state')) ?? 'in-use';
  const why = at(typed, 'why');
  if (state === 'quarantined' && why === '') read.note('why', words.sayWhy);
  const gtin = gtinOf(typed, read);
  return stated({
    supplier: at(typed, 'supplier') || undefined,
    received: came === undefined ? undefined : stated({ day: came, amount }),
    opened: day('opened'),
    bestBefore: day('bestBefore'),
    state: state === 'in-use' ? undefined : state,
    why: why || undefined,
    gtin,
    adjustments: adjustmentsIn(at(typed, 'adjustments'), read),
  }) as Partial<Lot>;
};

const stated = <T extends object>(said: T): object => Object.fromEntries(Object.entries(said).filter(([, value]) => value !== undefined));

const gtinOf = (typed: Typed, read: Gather): string | undefined => {
  const digits = at(typed, 'gtin').replaceAll(/\s/g, '');
  if (digits === '') return undefined;
  const filled = digits.padStart(14, '0');
  if (!isGtin(filled)) read.note('gtin', words.badGtin);
  return filled;
};

/** "2026-11-03 -20 spilt", one to a line. */
const adjustmentsIn = (text: string, read: Gather): readonly Adjustment[] | undefined => {
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  const made = lines.flatMap((line) => {
    const [, said = '', sum = '', why = ''] = /^\s*(\S+)\s+(\S+)\s+(.+?)\s*$/.exec(line) ?? [];
    const number = readNumber(sum);
    const mass = number.kind === 'number' && Math.abs(Number(number.decimal)) <= MOST_G ? grams(Number(number.decimal)) : null;
    const day = dayTyped(said, words.badAdjustment(line.trim()));
    if (day.why !== '' || mass === null || mass === 0) {
      read.note('adjustments', day.why === '' ? words.badAdjustment(line.trim()) : day.why);
      return [];
    }
    return [{ day: day.text, mass, why }];
  });
  return made.length === 0 ? undefined : made;
};

/** What a scanned label says, for the fields of the form; `null`: nothing that is read here. */
export const fromScan = (text: string, wall: number): Typed | null => {
  if (!looksLikeGs1(text)) return null;
  const read = readScan(text, wall);
  if (!read.ok) return null;
  const { gtin, lot, expiry, bestBefore, net } = read.said;
  const until = expiry ?? bestBefore;
  return {
    ...(gtin === null ? {} : { gtin }),
    ...(lot === null ? {} : { mark: lot }),
    ...(until === null ? {} : { bestBefore: until }),
    ...(net === null ? {} : { 'received.amount': gramsText(net) }),
  };
};
