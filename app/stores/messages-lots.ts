import type { LotUse } from '#lib/work/formula/index';
import type { LotFault } from '#lib/work/lots/fitness';

/** Words of how lots come, how long they may be used, and what is left of them. */
export const lotMessages = {
  received: 'How it came',
  supplier: 'Delivered by',
  day: 'Received, year-month-day',
  amount: 'How much came, g',
  opened: 'Opened, year-month-day',
  bestBefore: 'Last day it is to be used',
  dayHint: '2026-11-03',
  state: 'It is',
  states: { 'in-use': 'in use', quarantined: 'set apart', 'used-up': 'used up' } satisfies Record<LotUse, string>,
  why: 'Why it is set apart',
  gtin: 'Number below its bars',
  adjustments: 'Put right by hand: day, grams with their sign, why; one to a line',
  adjustmentsHint: '2026-11-03 -20 spilt',
  scan: 'Scan its label into this field',
  scanHint: 'or type it, with its brackets',
  scanned: 'Taken from its label: look at the fields below.',
  notScanned: 'That barcode says nothing about lot, day or item. Type them below.',
  badDay: 'A day as 2026-11-03 belongs here.',
  dayFirst: 'On which day did it come?',
  sayWhy: 'What is the matter with it?',
  badGtin: 'Its last digit does not fit the others. Look at the number again.',
  badAdjustment: (line: string) => `“${line}”: a day, grams and a word why belong in each line.`,
  left: 'left',
  leftUnit: 'g',
  until: 'until',
  notSaid: 'not known',
  /** Beside an amount below zero. */
  below: 'more was weighed out than came: put it right',
  faults: { expired: 'past its day', quarantined: 'set apart', 'used-up': 'used up' } satisfies Record<LotFault, string>,
  follow: 'Follow it',
  stock: (left: string, received: string, adjusted: string, used: string) =>
    `${left} left: ${received} came${adjusted === '' ? '' : `, ${adjusted} put right`}, ${used} weighed into batches.`,
  unknownStock: (used: string) => `${used} weighed into batches. How much came was never said.`,
} as const;
