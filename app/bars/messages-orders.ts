import { capital, counted } from '#lib/words/words';

const bars = (count: number): string => counted(count, 'bar', 'bars');
const days = (count: number): string => counted(count, 'day', 'days');

/** Words of the page of orders, markets and what they ask of the workshop. */
export const messages = {
  title: 'Orders and days',
  lead: {
    none: 'Nothing is asked for yet. Write down what has to be there and when: the last safe day to pour follows from it.',
    some: (open: number, missing: number) =>
      `${capital(counted(open, 'order or market is', 'orders and markets are'))} open; ${
        missing === 0 ? 'every bar of them is there or planned' : `${bars(missing)} can be neither found nor planned`
      }.`,
    working: (open: number, lots: number) =>
      `${capital(counted(open, 'order or market is', 'orders and markets are'))} open. When ${counted(lots, 'lot is', 'lots are')} ready is being worked out; what to pour follows.`,
    next: (title: string, day: string) => `Next: ${title}, ${day}.`,
  },
  back: 'All bars',
  orders: {
    title: 'Orders and markets',
    note: 'Whoever orders is named under Setup, People, and may be erased there; here stands what you call it.',
    empty: 'No order and no market.',
    add: 'Add an order or a market',
    caption: 'Orders and markets',
    heads: { name: 'called', due: 'on', bars: 'bars, handed over of asked', state: 'state' },
    name: 'What you call it',
    nameHint: 'Spring market',
    kind: 'Kind',
    kinds: { order: 'an order', market: 'a market' },
    due: 'Day it has to be there',
    dueHint: '2027-05-08',
    state: 'State',
    states: { open: 'open', done: 'done', dropped: 'dropped' },
    buyer: 'Who ordered',
    nobody: 'nobody in particular',
    erased: 'somebody whose name was erased',
    want: (n: number) => `Soap ${n}`,
    formula: 'Soap',
    choose: 'choose',
    count: 'Bars',
    label: 'Label weight at least, g',
    asItIs: 'as it is',
    remark: 'Remark',
    overOf: (over: number, asked: number) => `${over} of ${asked}`,
    oneAtLeast: 'Choose a soap and how many bars of it.',
    badDay: 'A day looks like 2027-05-08.',
  },
  promised: {
    title: 'What is promised',
    note: 'The oldest bars first, to what is due first. Only bars that are ready by then nine times in ten are counted.',
    caption: 'Bars promised to orders',
    heads: { order: 'for', soap: 'soap', from: 'from', missing: 'missing' },
    of: (count: number, mark: string) => `${count} of ${mark}`,
    unsure: (count: number, mark: string) => `${count} of ${mark} may be ready in time, and are not counted`,
    none: '',
  },
  hand: {
    title: 'Hand over',
    note: 'What is promised to it, as it leaves: for an order as sold, for a market as taken along. What is handed over is promised no longer.',
    order: 'For',
    heads: { lot: 'lot', place: 'place', promised: 'promised', count: 'how many' },
    of: (mark: string) => `How many of ${mark}`,
    notReady: (day: string) => `likely ready ${day}`,
    sell: 'Enter as sold',
    take: 'Enter as taken along',
    afterwards: 'Afterwards one count for each lot, under Bars, After a market: what is neither home nor given was sold there.',
    filled: (over: number, asked: number, away: number) =>
      `${capital(bars(over))} of ${asked} handed over${away === 0 ? '' : `, ${away} on the way`}.`,
    lot: (mark: string, soap: string, over: number, away: number) =>
      `${mark} ${soap}: ${[...(over > 0 ? [`${over} handed over`] : []), ...(away > 0 ? [`${away} taken along`] : [])].join(', ')}`,
    done: 'All is handed over: mark it as done',
    allOver: 'All handed over',
  },
  pour: {
    title: 'What to pour',
    note: 'Whole batches, each on the last day that is safe: worked back from the day through cure, cutting and unmoulding, as your own lots took.',
    nothing: 'Nothing has to be poured for what is asked.',
    caption: 'Batches to pour',
    heads: { day: 'pour by', soap: 'soap', for: 'for', bars: 'bars', spare: 'to spare', ready: 'ready' },
    ready: (likely: string) => likely,
    interval: (from: string, by: string) => `Nine times in ten between ${from} and ${by}.`,
    late: (count: number) => `${days(count)} too late to be sure`,
    clash: {
      'too-late': (order: string, soap: string, count: number) =>
        `${soap} for ${order}: the last safe day was ${days(count)} before the first you can pour on. It may still be ready; promise less, or a later day.`,
      moulds: (order: string, soap: string, mould: string) =>
        `${soap} for ${order}: every ${mould} is full on the last safe day, so it moved.`,
      'no-day': (order: string, soap: string, count: number) => `${soap} for ${order}: no day is free to pour ${bars(count)} more.`,
      'unknown-making': (order: string, soap: string) =>
        `${soap} for ${order}: nobody knows how many bars a batch gives. Name its moulds on the formula, and below how many bars one gives.`,
      label: (order: string, soap: string, carries: string | null) =>
        carries === null
          ? `${soap} for ${order}: no lot of it has a label weight yet; weigh its bars when they are cut.`
          : `${soap} for ${order}: its bars carry ${carries} at most.`,
    },
    crowded: (day: string, over: string) => `From ${day} the shelf has ${over} more than there is room for.`,
  },
  buy: {
    title: 'What to buy',
    note: 'For what is to be poured, beyond what is on hand by the lots in Stores.',
    nothing: 'Nothing is short.',
    caption: 'What to buy',
    heads: { thing: 'what', short: 'short', packs: 'packs', by: 'order by', for: 'first needed' },
    unit: 'g',
    pieces: (count: number) => counted(count, 'piece', 'pieces'),
    noPack: 'pack not said',
    unplanned: (soap: string) => `What ${soap} takes cannot be worked out: open its formula. It is not in this list.`,
    late: 'too late for its day',
    below: 'On hand is less than nothing: more was weighed than was written down as received.',
  },
  days: {
    title: 'What must happen when',
    note: 'Overdue things stand on today. A calendar program reads the same from the address below, as often as it likes.',
    nothing: 'Nothing lies ahead.',
    today: 'today',
    subscribe: 'Calendar to subscribe to',
    more: (count: number) => `Show ${count} more`,
  },
  trade: {
    title: 'How you make and sell',
    note: 'Asked once and remembered as yours. What is left empty is not counted.',
    days: 'Days you pour on',
    week: ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'],
    batchesADay: 'Batches a day at the most',
    shelf: 'Bars the curing shelf holds',
    minutes: 'Minutes of work on a batch',
    rate: 'Money an hour of it is worth',
    money: 'Money is',
    moneyHint: 'EUR',
    owned: (mould: string) => `How many there are: ${mould}`,
    each: (mould: string) => `Bars for sale of one: ${mould}`,
    learnt: 'by its own lots',
    kept: 'how you make and sell',
    said: {
      batches: (count: number) => `${counted(count, 'batch', 'batches')} a day`,
      shelf: (count: number) => `shelf for ${bars(count)}`,
      minutes: (count: number) => `${counted(count, 'minute', 'minutes')} a batch`,
      rate: (rate: string, money: string) => `${rate} ${money} an hour`,
    },
  },
  goods: {
    title: 'How things are bought',
    note: 'Packs, prices and days until they are here, of materials and of wraps. A price on the lot itself goes before.',
    empty: 'Nothing said yet.',
    add: 'Add something that is bought',
    caption: 'How things are bought',
    heads: { name: 'what', pack: 'one pack', price: 'price', days: 'days' },
    kind: 'What it is',
    wrap: 'a wrap or a box of its own name',
    name: 'Name of the wrap',
    pack: (material: boolean) => (material ? 'One pack, g' : 'One pack, pieces'),
    price: 'Price of one pack',
    wait: 'Days until it is here',
    perBar: 'Pieces on one bar',
    onHand: 'Pieces on hand',
    packText: (pack: string, material: boolean) => `${pack} ${material ? 'g' : 'pieces'}`,
  },
} as const;
