import type { ResultLimit } from '#lib/work/batch/poured/result';

/** As poured, on paper. */
export const pouredWords = {
  title: 'As poured',
  note: 'From every weight with what it may be off by, and what is known of each lot. Each interval holds the true value 95 times in 100.',
  kept: (method: string) => `Worked out and kept when the batch was closed (method ${method}).`,
  soFar: (lines: string) => `Worked out from what is weighed so far; ${lines} at plan.`,
  now: 'Worked out from what was weighed.',
  /** Superfat worked out again, beside what it was closed with. */
  corrected: (now: string, low: string, high: string, before: string) =>
    `Worked out again with what was put right, the superfat is ${now} (${low} to ${high}, 95 in 100); before it was ${before}.`,
  heavy: 'That may be lye-heavy: hold its bars and look at them before any is used.',
  unknown: 'not known',
  heads: {
    what: 'result',
    value: 'as poured',
    half: '±',
    from: '95 in 100 from',
    to: 'to',
    limits: 'formula',
    verdict: '',
    said: 'held against it',
  },
  what: {
    superfat: 'Superfat',
    lye: 'Lye concentration',
    load: 'Fragrance, of the oils',
    fragrance: 'Fragrance, of its limit',
    volume: 'Batter',
    full: 'Moulds filled',
    share: (name: string) => `${name}, of the oils`,
  },
  percent: '%',
  millilitres: 'mL',
  unlimited: (names: string) => `Nobody typed a limit for ${names}: the sum is not known.`,
  /** A formula's limits in words; nothing where there are none. */
  bandOf: (low: number | null, high: number | null, show: (of: number) => string): string => {
    if (low !== null && high !== null) return `${show(low)} to ${show(high)}`;
    if (low !== null) return `at least ${show(low)}`;
    return high === null ? '' : `at most ${show(high)}`;
  },
  verdict: { inside: 'inside', check: 'may be outside', outside: 'outside' } satisfies Record<ResultLimit['verdict'], string>,
  workings: {
    title: 'Superfat: what makes it wide',
    label: 'superfat, how it was worked out',
    sum: (working: string, expected: string, u: string) =>
      [
        `1 − (pure alkali − acid demand) ÷ fat demand = ${working} at the working values, ${expected} at the means of beliefs;`,
        `standard uncertainty ${u} points (GUM, from the readings).`,
      ].join(' '),
    worst: (low: string, high: string) => `With every range at its worst end at once: ${low} to ${high} %.`,
    chance: (chance: string) => `Chance of lye left over: ${chance} %.`,
    heads: { cause: 'from', half: '± points', share: 'of u²' },
    narrower: 'What would narrow it',
    step: (what: string, from: string, to: string) => `${what}: ±${from} → ±${to}`,
  },
} as const;
