import type { Card, RemedySeen } from '#lib/bench/cue';
import { as } from '#lib/units/id';
import { mg } from '#lib/units/mass';

/** What a card is drawn from, with nothing that matters in it. */
export const seen = (change: Partial<RemedySeen> = {}): RemedySeen => ({
  recommended: null,
  clashes: [],
  superfat: null,
  matters: [],
  full: 957_000,
  added: mg(0),
  taken: mg(0),
  lines: [],
  cautions: [],
  solved: true,
  ...change,
});
const way = (code: string, params: Card['params'], remedy: RemedySeen, change: Partial<Card> = {}): Card => ({
  code,
  params,
  hold: true,
  enabled: true,
  why: null,
  remedy,
  ...change,
});
const line = (id: string, from: number, to: number) => ({ line: as<never>(id), from: mg(from), to: mg(to) });
const superfat = (value: number, half: number) => ({ value, half });
const limit = (name: 'superfat-most' | 'moulds', by: number) => ({ limit: name, line: null, vessel: null, by, unit: 'ppm' }) as const;
const stop = way('stop', {}, seen({ cautions: ['stop-safely'] }));

/** 24.8 g of olive oil too many in alder and oat, as the solver answers it. */
export const RED_WAYS: readonly Card[] = [
  way(
    'use-less',
    { line: 'rapeseed', mass: 25_100 },
    seen({
      recommended: 'least-change',
      superfat: superfat(49_800, 15_700),
      lines: [line('rapeseed', 200_000, 174_900)],
      cautions: ['protect'],
    }),
  ),
  way(
    'carry-on',
    {},
    seen({ superfat: superfat(71_127, 15_600), clashes: [limit('superfat-most', 11_127)], cautions: ['outside-formula'] }),
  ),
  way(
    'scale',
    { factor: 1_062_000 },
    seen({
      superfat: superfat(50_021, 16_300),
      added: mg(66_306),
      lines: [line('shea', 120_000, 127_400), line('coconut', 280_000, 297_400), line('rapeseed', 200_000, 212_400)],
      cautions: ['protect', 'stock-not-known'],
    }),
  ),
  way('scoop', { vessel: 'oils-pot', mass: 11_900 }, seen(), { enabled: false, why: 'mixed' }),
  stop,
];

/** 8.4 g too many, inside every limit: nothing needs doing. */
export const CALM_WAYS: readonly Card[] = [
  way('carry-on', {}, seen({ recommended: 'inside-every-limit', superfat: superfat(57_300, 15_500) })),
  way(
    'use-less',
    { line: 'rapeseed', mass: 8_400 },
    seen({ superfat: superfat(50_000, 15_700), lines: [line('rapeseed', 200_000, 191_600)] }),
  ),
  { code: 'cross-out', params: { over: 8_400 }, hold: true, enabled: true, why: null },
  stop,
];

/** 53 g of water too many: the lye is too weak, and two lines that are in get more. */
export const LYE_WAYS: readonly Card[] = [
  way(
    'add',
    { count: 2, mass: 19_400, 'line 1': 'coconut', 'move 1': 15_200, 'line 2': 'soda', 'move 2': 4_200 },
    seen({
      recommended: 'least-change',
      superfat: superfat(50_000, 18_000),
      matters: [{ of: 'lye', line: null, value: 300_000 }],
      added: mg(19_400),
      lines: [line('coconut', 280_000, 295_200), line('soda', 140_600, 144_800)],
      cautions: ['protect', 'cool-first', 'slowly', 'stock-not-known'],
    }),
  ),
  way(
    'carry-on',
    {},
    seen({
      superfat: superfat(50_000, 18_000),
      matters: [{ of: 'lye', line: null, value: 294_000 }],
      clashes: [{ limit: 'lye-weakest', line: null, vessel: null, by: 6_000, unit: 'ppm' }],
      cautions: ['outside-formula'],
    }),
  ),
  way(
    'scale',
    { factor: 1_062_000 },
    seen({
      superfat: superfat(50_021, 16_300),
      matters: [
        { of: 'lye', line: null, value: 301_000 },
        { of: 'share', line: as<never>('coconut'), value: 281_000 },
      ],
      added: mg(66_306),
      full: 1_024_000,
      lines: [line('shea', 120_000, 127_400), line('coconut', 280_000, 297_400), line('rapeseed', 200_000, 212_400)],
      cautions: ['protect', 'cool-first', 'stock-not-known'],
    }),
  ),
  way('use-more', { line: 'rapeseed', mass: 12_400 }, seen({ superfat: superfat(61_000, 18_000) }), {
    enabled: false,
    why: 'no-solution',
    remedy: seen({
      superfat: superfat(61_000, 18_000),
      clashes: [limit('superfat-most', 1_127), { limit: 'share-most', line: as<never>('rapeseed'), vessel: null, by: 24_000, unit: 'ppm' }],
    }),
  }),
  stop,
];

/** The same cards while the reading moves: they stand where they stood. */
export const WAITING_WAYS: readonly Card[] = RED_WAYS.map((card) => ({ ...card, enabled: false, why: card.why ?? 'settling' }));

/** The solver gave no answer: what is left without it. */
export const UNSOLVED_WAYS: readonly Card[] = [
  way('carry-on', {}, seen({ solved: false, superfat: superfat(71_127, 15_600), recommended: 'only-way' })),
  way('stop', {}, seen({ solved: false, cautions: ['stop-safely'] })),
];
