import { capital, counted } from '#lib/words/words';

/** Words of the list of bars. */
export const messages = {
  title: 'Bars',
  orders: 'Orders, and what has to happen when',
  lead: {
    none: 'No bars yet. They begin from the moulds of a batch that is closed.',
    some: (inMoulds: number, curing: number, ready: number) =>
      `${capital(counted(inMoulds, 'lot is', 'lots are'))} in moulds, ${curing === 0 ? 'none is curing' : counted(curing, 'is curing', 'are curing')}, ${ready === 0 ? 'none is ready' : counted(ready, 'is ready', 'are ready')}.`,
    due: (count: number) => `${capital(counted(count, 'log can', 'logs can'))} leave the mould now.`,
    nothingDue: 'Nothing has to leave its mould now.',
  },
  empty: {
    title: 'How they go on',
    steps: [
      'Close a batch at the bench: each of its moulds waits here to become bars.',
      'Say when a log comes out, choose how it is cut, and cut it.',
      'Weigh a few marked bars now and then: the day they are ready follows, and the label they carry.',
    ],
  },
  waiting: {
    title: 'Closed of late',
    note: 'What was poured becomes bars here: one lot for each mould, or one for several with like bars.',
    batch: (mark: string, name: string) => `${mark} ${name}`,
    mould: (mark: string, name: string) => `${mark}, ${name}`,
    each: (count: number) => (count === 1 ? 'Begin its bars' : `Begin ${counted(count, 'lot', 'lots')}, one for each mould`),
    together: (count: number) => `Begin one lot from all ${counted(count, 'mould', 'moulds')}`,
  },
  moulds: {
    title: 'In their moulds',
    note: 'Never by force: a log that sticks needs another night, or an hour in the cold. Gloves on: fresh soap is still caustic.',
    poured: (when: string) => `Poured ${when}`,
    window: {
      answers: (lots: number, least: number, most: number) =>
        `${capital(counted(lots, 'earlier lot', 'earlier lots'))} of it came out clean after ${least === most ? least : `${least} to ${most}`} h.`,
      said: (from: number, to: number) => `Set for this formula: ${from} to ${to} h.`,
      practice: (from: number, to: number) => `A day or two, ${from} to ${to} h: common practice, no source. Longer when it is soft.`,
      slow: 'It has taken longer than usual before.',
    },
    state: {
      out: 'out',
      stuck: 'it sticks',
      torn: 'out, torn',
      'too-soft': 'too soft',
      freezer: 'in the freezer',
      'not-yet': 'not yet',
    },
    since: (state: string, when: string) => `${capital(state)} since ${when}`,
    acts: { out: 'It is out', 'not-yet': 'Not yet' },
    more: 'Other answers',
    crumbles: 'Salt and wax bars crumble when they are cut late: cut as soon as it holds its shape (common practice, no source).',
    axis: (hours: number) => `${hours} h`,
    now: 'now',
    earlier: 'expected',
    cutBy: 'cut by',
    drawing: (hours: number, from: number, to: number, latest: number | null) =>
      `${hours} hours since pouring; expected out between ${from} and ${to}${latest === null ? '' : `, to be cut by ${latest}`}.`,
  },
  cut: {
    title: 'To be cut',
    note: 'Out of the mould, whole.',
    out: (when: string) => `out since ${when}`,
    act: 'Cut',
  },
  curing: {
    title: 'Curing',
    both: (days: number, percent: string) =>
      `A lot is ready when it is ${days} days old and loses under ${percent} % in a week, over 14 days.`,
    days: (days: number) => `A lot is ready when it is ${days} days old.`,
    loss: (percent: string) => `A lot is ready when it loses under ${percent} % in a week, over 14 days.`,
    rules: 'The rule is yours.',
    weigh: (mark: string) => `Weigh ${mark}.`,
    heads: { lot: 'lot', weighed: 'last weighed', lost: 'lost', ready: 'ready; 9 times in 10', place: 'place' },
    unit: { lost: '%', ready: 'within' },
    never: 'never',
    today: 'today',
    key: 'Ring: cut. Dots: weighings. Diamond: ready. The bar between two ticks holds the day 9 times in 10.',
    working: 'working out',
    later: 'later than day 120',
    within: (low: string, high: string) => `${low} to ${high}`,
    why: { 'not-cut': '', 'no-water': 'its water is not known', 'no-weight': 'weigh it first' },
    isReady: 'ready',
  },
  shelf: {
    title: 'On the shelf',
    note: 'Counted down with every sale, gift and loss.',
    heads: { lot: 'lot', label: 'label', place: 'place', since: 'since', bars: 'bars', left: 'left', made: 'made' },
    unit: 'g',
    held: 'held',
    away: (count: number) => `${counted(count, 'bar', 'bars')} at a market`,
    left: (left: number, made: number) => `${left} of ${made} left`,
  },
  market: {
    title: 'After a market',
    note: 'One count for each lot: what is neither home nor given was sold.',
    open: 'Count a market day',
    heads: { took: 'took', home: 'brought home', gave: 'gave', sold: 'sold' },
    of: (what: string, mark: string) => `${what}, ${mark}`,
    act: 'Enter these counts',
  },
  past: {
    title: 'Gone',
    note: 'Lots of which no bar is left.',
    show: 'Show lots that are gone',
    heads: { lot: 'lot', made: 'made', sold: 'sold', given: 'given', spoiled: 'spoiled' },
  },
  places: {
    title: 'What is where',
    note: 'Places as they were typed; a lot without one stands nowhere yet.',
    nowhere: 'No place',
    since: (when: string) => `since ${when}`,
    ready: (when: string) => `ready ${when}`,
  },
  refused: (code: string) => ({
    error:
      code === 'moved-on' || code === 'already-done'
        ? 'It was changed on another screen meanwhile.'
        : code === 'no-stock'
          ? 'There are not so many bars left.'
          : code === 'bad-number'
            ? 'A number here is too small or too large to be meant.'
            : 'It was not taken into the record.',
    kept: 'What was recorded before stands.',
    todo: code === 'bad-number' ? 'Put it right and say it again.' : 'Look at what stands now, and say it again if it is still so.',
  }),
} as const;
