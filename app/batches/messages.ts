import type { Deviation } from '#lib/protocol/find';
import { capital, counted } from '#lib/words/words';

/** Words of the list of batches. */
export const messages = {
  title: 'Batches',
  realm: {
    practice: 'Weighed on the practice bench: none of it can pass for a real record.',
    test: 'Weighed on a test bench: no real records.',
    real: 'Weighed on the real bench.',
  },
  lead: {
    some: (shown: number, more: boolean) =>
      more ? `The newest ${counted(shown, 'batch', 'batches')}.` : `${capital(counted(shown, 'batch', 'batches'))} so far.`,
    clean: 'None of them has an over-pour, an override or a weight typed by hand.',
    marked: (count: number) =>
      `${capital(counted(count, 'of them has', 'of them have'))} an over-pour, an override or a weight typed by hand.`,
    none: 'Nothing has been weighed here yet. Every batch that is begun appears on this page, finished or not.',
  },
  list: {
    title: 'Weighed here',
    note: 'Planned as each batch began; actual is what the weights in its record add up to.',
    teach: 'Open one to see every weight beside its plan.',
    more: 'Show older batches',
    asking: 'Fetching older batches',
  },
  pouring: 'Your pouring over time',
  find: {
    title: 'Find',
    note: 'Every word must stand somewhere in a batch: its mark, formula, materials, lots, or what somebody wrote. The beginning of a word is enough; what has a number in it, or stands in quotes, is found as it is.',
    words: 'Words',
    hint: 'olive draught, 26-11, CO 21',
    formula: 'Formula',
    every: 'every formula',
    from: 'Begun from',
    to: 'up to',
    deviation: 'What went otherwise',
    deviations: {
      '': 'whatever',
      any: 'anything',
      'over-pour': 'an over-pour',
      override: 'a hold allowed',
      'by-hand': 'a weight by hand',
      stated: 'a deviation written down',
    } satisfies Record<Deviation | 'any' | '', string>,
    found: 'Found',
    none: 'No batch has all of that. Fewer words, or a longer time, find more.',
    all: 'Show all again',
  },
  elsewhere: {
    title: 'Kept elsewhere',
    note: 'A record on one disk is one disk away from none. Copies are made beside it once a day and looked at after writing; take one to another place now and then.',
    archive: 'Everything in one archive',
    archiveNote:
      'Every batch as tables and as files for other programs, the record itself, and what proves it. The key that signs is never in it.',
    newest: (when: string, size: string, folder: string) => `The newest copy is of ${when}, ${size}, in ${folder}.`,
    none: (folder: string) => `No copy has been made yet. One comes within the hour, into ${folder}.`,
    now: 'Copy now',
    copying: 'Copying and looking at it',
  },
  parked: {
    title: 'Parked',
    note: 'They wait as they were left. The empty bench takes one up again.',
  },
  empty: {
    title: 'How one comes here',
    steps: [
      'Open the bench, choose what to make, and the lot you hold of each material.',
      'Weigh. Each weight is in the record the moment it is accepted.',
      'Afterwards its review shows every weight beside its plan.',
    ],
    act: 'Open the bench',
  },
} as const;
