import { listed } from '#lib/words/words';

/** Words of what a bar costs. */
export const messages = {
  title: 'Cost of a bar',
  note: 'All that went into the batch, wraps and work, borne by the bars that can be sold. Prices stand on the lots and under Orders, How things are bought.',
  is: 'One bar costs',
  isAtLeast: 'One bar costs at least',
  unknown: (names: readonly string[]) => `Nobody has noted what ${listed(names)} cost.`,
  packaging: 'wraps and boxes',
  time: 'work',
} as const;
