import { capital, counted, listed } from '#lib/words/words';

/** Words of bars that are sold, given, taken along and given back. */
export const sales = {
  for: 'For which order',
  noOrder: 'none',
  market: 'Which market',
  noMarket: 'not said',
  order: (name: string, due: string) => `${name}, ${due}`,
  back: {
    title: 'Given back',
    note: 'Bars a buyer gives back leave that sale, and a recall no longer counts them there.',
    open: 'Somebody gives bars back',
    from: 'From whom',
    had: (who: string, count: number, was: 'sold' | 'given') => `${who}: ${count} ${was}`,
    somebody: 'somebody not written down',
    erased: 'somebody whose name was erased',
    count: 'How many come back',
    into: 'What becomes of them',
    intos: { aside: 'kept apart for now', stock: 'back on the shelf', spoiled: 'spoiled' },
    why: 'Why, optional',
    act: 'Enter as given back',
  },
  aside: {
    said: (count: number) => `${capital(counted(count, 'bar was', 'bars were'))} given back and kept apart: neither sold nor promised.`,
    stock: 'Sound: back on the shelf',
    spoil: 'Spoiled',
    count: 'How many of those',
  },
  over: {
    label: 'The market is over',
    uncounted: (marks: readonly string[]) =>
      `Taken along there and not counted yet: ${listed(marks)}. The market stays open until they are.`,
    note: 'Its order is then done: what was not sold is promised to nobody any more.',
  },
} as const;
