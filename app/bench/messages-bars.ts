import type { BarsPhase, BarsWhy } from '#lib/bench/bars/types';

interface Said {
  /** The largest words of the screen. */
  readonly name: (bar: string) => string;
  /** What to do, below the number. */
  readonly what: string;
}

/** Words of bars weighed at the bench. */
export const barsMessages = {
  title: 'Weigh bars',
  bar: (bar: number | null, next: number) => (bar === null ? `bar no. ${next}` : `bar ${bar}`),
  place: (done: number, of: number) => `${done} of ${of} weighed`,
  noLot: 'No bars are named',
  noLotTeach: 'Open them from the list of bars.',
  choose: 'Which bars',
  chooseTeach: 'Put on, settled, next: each is taken by itself once it rests. Always the same bars, so mark them.',
  starts: {
    followed: { name: (bars: string) => `Bars ${bars}`, sub: 'the ones followed so far' },
    three: { name: (bars: string) => `Follow bars ${bars}`, sub: 'three bars, for a scale of 1 g' },
    one: { name: (bar: number) => `Follow bar ${bar}`, sub: 'one bar is enough on a scale of 0.1 g' },
    net: { name: (count: number) => `All ${count}`, sub: 'against their label, in any order' },
  },
  phases: {
    empty: { name: () => 'Free the pan', what: 'Nothing counts before it was seen free. A dish that stays: go on.' },
    'put-on': { name: (bar) => `Put on ${bar}`, what: 'In the middle of the pan, hands off.' },
    settling: { name: (bar) => bar, what: 'It still moves.' },
    offer: { name: (bar) => bar, what: 'It rests: taken in a moment.' },
    ask: { name: (bar) => `Is this ${bar}?`, what: 'Go on takes it, back does not.' },
    taken: { name: () => 'Taken: lift it', what: 'The next one when the pan is free.' },
    changed: { name: () => 'It moved after', what: 'Go on crosses it out and weighs it again; back keeps what was taken.' },
    'no-weight': { name: () => 'No weight', what: 'Look at the scale: nothing is taken.' },
    busy: { name: () => 'A batch is weighed', what: 'Its scales weigh nothing else. Bars can be typed on their page.' },
    done: { name: () => 'All weighed', what: 'Back crosses out the last one.' },
  } satisfies Record<BarsPhase, Said>,
  why: {
    lost: 'The scale is silent or late.',
    suspect: 'Its readings cannot be believed.',
    underload: 'It reads less than nothing: free it.',
    'not-led': 'Nobody leads the bench: take control, or go on.',
    unlike: 'Not what it weighed, or what its neighbours weigh.',
    'used-up': 'This weight is in the record already: lift it and put it on again.',
    refused: 'It was not taken. Lift it and put it on again, or go on.',
  } satisfies Record<BarsWhy, string>,
  number: { word: 'on the pan', spoken: (mass: string) => `${mass} on the pan` },
  expected: (low: string, high: string) => `about ${low} to ${high}`,
  last: (bar: string, mass: string) => `${bar}: ${mass}`,
  goOn: { empty: 'this is the free pan', take: 'take it', again: 'weigh it again', end: 'to the bars’ page', waits: 'by itself' },
  back: { not: 'do not take it', keep: 'keep it', undo: 'cross out the last', leave: 'to the bars’ page' },
  help: 'Let the practice hands do it',
  end: 'End this round',
  say: {
    putOn: (bar: string) => `Put on ${bar}.`,
    taken: (bar: string, mass: string) => `${bar}, ${mass}.`,
    done: 'All weighed.',
    ask: (bar: string) => `Is this ${bar}?`,
  },
} as const;
