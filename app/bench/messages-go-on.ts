import type { GoOnCode } from '#lib/bench/codes';

/** What the "go on" target says under its name. */
export const goOnWords: Readonly<Record<GoOnCode, string>> = {
  'next-card': 'next card; hold: take',
  'confirm-gate': 'hold: all confirmed',
  accept: 'take it now',
  'accept-held': 'hold 2\u00a0s: take it',
  enough: 'hold: that is enough',
  'come-back': 'I am back',
  'after-replug': 'as it was: go on',
  'unit-noted': 'unit is right again',
  'scale-zeroed': 'pan empty, zeroed',
  'probe-out': 'probe is out',
  'take-portion': 'take this portion',
  'take-pour': 'hold: take it',
  'taken-out': 'hold: so much is out',
  'left-in': 'hold: leave it in',
  'done-by-hand': 'hold: done, by hand',
  'count-from-here': 'count from here',
  'close-batch': 'asks whether to close',
};

export const goOnWordsFor = (code: string): string => (goOnWords as Readonly<Record<string, string>>)[code] ?? code.replaceAll('-', ' ');
