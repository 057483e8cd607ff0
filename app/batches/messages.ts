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
