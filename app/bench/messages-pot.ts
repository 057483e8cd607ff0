import type { Unworked } from '#lib/work/batch/poured/types';

/** The one line of what the pot is now, and its sheet. */
export const potWords = {
  line: (value: string, half: string) => `superfat ${value} ±${half}`,
  /** Lye-heavy, how wide it is does not matter any more. */
  bare: (value: string) => `superfat ${value}`,
  unworked: {
    'typed-plan': 'superfat not worked out',
    'not-frozen': 'superfat not worked out',
    'unknown-line': 'superfat unknown: check',
  } satisfies Record<Unworked['kind'], string>,
  check: 'check',
  heavy: 'lye-heavy',
  open: 'What the pot is now',
  title: 'The pot now',
  teach: 'From what was weighed; what is still to come at plan. ± holds 95 times in 100.',
  superfat: 'superfat',
  between: (low: string, high: string) => `${low} to ${high}`,
  interval: '95 times in 100',
  worst: 'worst case of all ranges',
  chance: 'chance of lye left over',
  lye: 'lye concentration',
  fragrance: 'fragrance of its limit',
  unlimited: 'no limit typed',
  full: 'moulds filled',
  volume: 'batter',
  millilitres: (value: string) => `${value} ml`,
  plusMinus: (value: string, half: string) => `${value} ±${half}`,
  wide: 'What makes it wide',
  narrower: 'What would narrow it',
  fromTo: (from: string, to: string) => `±${from} → ±${to}`,
} as const;
