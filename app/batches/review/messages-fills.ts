/** Words of how full the moulds of a batch got. */
export const messages = {
  title: 'How full the moulds got',
  note: 'Looked at before it sets. What it says of your batter corrects the room the next plans reckon with.',
  mould: (count: number, name: string) => (count === 1 ? name : `${count} × ${name}`),
  field: { full: (name: string) => `How full ${name} got, %`, grams: 'Batter in each, g' },
  optional: 'may stay empty',
  keep: 'Keep it',
  kept: 'Kept.',
  why: 'Where one ran over or nobody looked, weigh one that did not, or leave it all empty: nothing is learnt from a guess.',
  says: (factor: string) => `This batch took ${factor} times the room that was computed for it.`,
  noMoulds: 'The formula of this batch names no mould that is noted in the workshop now.',
  off: (factor: string, low: string, high: string) =>
    `That would be ${factor} times the computed room. Between ${low} and ${high} it can be: look at the figures again.`,
} as const;
