import type { StrikeReason } from '#lib/work/batch/index';

/** Why a weight was crossed out, in the words of the press that says so and of every record that tells it. */
export const reasonWords = {
  'wrong-material': 'wrong material',
  'wrong-vessel': 'wrong vessel',
  'something-on-the-pan': 'something on the pan',
  'over-poured': 'over-poured',
  mistyped: 'mistyped',
  undone: 'undone',
  other: 'another reason',
} satisfies Record<StrikeReason, string>;
