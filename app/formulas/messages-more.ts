import type { Entry, Reference, Temperatures } from '#lib/work/formula/index';

type Goes = NonNullable<Entry['goes']>;
type Lock = NonNullable<Entry['lock']>;

/** Words for what a formula may say beyond its amounts: where lye and oils meet, what is locked, its limits, and its papers. */
export const messages = {
  joining: {
    title: 'Lye and oils meet',
    note: 'In °C, both vessels. What is left empty is not decided for you unseen: what the plan uses stands below.',
    kind: 'Temperatures',
    kinds: { usual: 'not said: the usual of the trade', said: 'as said here' },
    low: 'Window from, °C',
    high: 'Window to, °C',
    apart: 'Lye and oils apart by at most, °C',
    level: 'Further apart than that',
    levels: {
      hold: 'holds joining until they are closer',
      advise: 'is said, and joining stays open',
    } satisfies Record<Temperatures['apartLevel'], string>,
    setsAt: 'The blend begins to set at, °C',
    milkLimit: 'Milk at most, °C',
    pourAt: 'Poured at, °C',
    uses: 'The plan uses',
    window: (low: string, high: string) => `both between ${low} and ${high}`,
    within: (apart: string, level: Temperatures['apartLevel']) =>
      `at most ${apart} apart, ${level === 'hold' ? 'and joining is held until then' : 'and more than that is only said'}`,
    sets: (at: string | null) => (at === null ? 'where the blend begins to set is not known' : `the blend begins to set at ${at}`),
    milk: (at: string | null) => (at === null ? 'no limit for milk, as there is none in it' : `milk at most ${at}`),
    pour: (at: string) => `poured at ${at}`,
    not: 'What the plan uses stands here as soon as nothing else is asked for.',
  },
  more: {
    more: 'more',
    of: (name: string) => `more: ${name}`,
    lock: 'When others change, or the size',
    locks: { free: 'it moves with them', share: 'its share stays', mass: 'its weight stays' } satisfies Record<Lock | 'free', string>,
    low: 'Kept within, from % of the oils',
    high: 'Kept within, to % of the oils',
    goes: 'Goes in',
    places: {
      usual: 'as usual',
      oils: 'with the oils',
      lye: 'in the lye, before the hydroxide',
      aside: 'waits in a cup',
      trace: 'at trace',
    } satisfies Record<Goes | 'usual', string>,
    state: 'Weighed',
    states: { liquid: 'liquid', frozen: 'frozen' },
    kept: (low: string, high: string) => `kept within ${low}–${high} %`,
  },
  measures: {
    weights: 'As weights',
    shares: 'As shares',
    not: 'Not before this is clear:',
  },
  limits: {
    title: 'Where an over-pour stays calm',
    superfat: { low: 'Superfat at least, %', high: 'Superfat at most, %' },
    lye: { low: 'Hydroxide in the lye at least, %', high: 'Hydroxide in the lye at most, %' },
    uses: (superfat: string, lye: string) => `The plan uses: superfat ${superfat}; hydroxide in the lye ${lye}.`,
    band: (low: string, high: string, source: string) => `${low} to ${high} % (${source})`,
  },
  references: {
    title: 'Papers it has to keep to',
    note: 'What a safety assessment or a notification allows of each material. The plan is held against it before weighing, the batch at release.',
    kinds: { 'safety-assessment': 'Safety assessment', notification: 'Notification' } satisfies Record<Reference['kind'], string>,
    add: { 'safety-assessment': 'Add a safety assessment', notification: 'Add a notification' } satisfies Record<Reference['kind'], string>,
    number: 'Number',
    date: 'Of the day, such as 2026-02-03',
    noDate: 'A day such as 2026-02-03 belongs here. Until then the formula cannot be kept.',
    material: 'Material',
    low: 'At least, % of the batter',
    high: 'At most, % of the batter',
    noNumber: 'A number from 0 to 100 belongs here. Until then this material is not held against it.',
    upsideDown: 'The lower end is above the upper: no batch can keep to it.',
    addRange: 'Add a material',
    removeRange: 'Take this material out',
    remove: 'Take this paper out',
  },
} as const;
