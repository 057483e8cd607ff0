import type { BarsPhase, BarsWhy } from '#lib/bench/bars/types';
import { capital } from '#lib/words/words';

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
  mass: 'the known mass',
  place: (done: number, of: number) => `${done} of ${of} weighed`,
  list: { name: 'To the bars', sub: 'weighing begins from their page' },
  choose: 'Which bars',
  chooseTeach: 'Put on, settled, next.',
  starts: {
    followed: { name: (bars: string) => `Bars ${bars}`, sub: 'the ones followed so far' },
    three: { name: (bars: string) => `Follow bars ${bars}`, sub: 'three, for a scale of 1 g: mark them' },
    one: { name: (bar: number) => `Follow bar ${bar}`, sub: 'one is enough on a scale of 0.1 g: mark it' },
    mass: { name: (mass: string) => `Known mass: ${mass}`, sub: 'what the scale is off by' },
    net: { name: (count: number) => `All ${count}`, sub: 'against their label, in any order' },
  },
  phases: {
    empty: { name: () => 'Free the pan', what: 'Nothing counts before it was seen free.' },
    'put-on': { name: (bar) => `Put on ${bar}`, what: 'Middle of the pan, hands off.' },
    settling: { name: capital, what: 'It still moves.' },
    offer: { name: capital, what: 'It rests: taken in a moment.' },
    ask: { name: (bar) => `Is this ${bar}?`, what: 'Go on takes it, back does not.' },
    taken: { name: () => 'Taken: lift it', what: 'The next when the pan is free.' },
    changed: { name: () => 'It moved after', what: 'Go on: weigh it again. Back: keep it.' },
    'no-weight': { name: () => 'No weight', what: 'Look at the scale: nothing is taken.' },
    busy: { name: () => 'A batch is on', what: 'Its scales weigh nothing else.' },
    done: { name: () => 'All weighed', what: 'Back crosses out the last one.' },
  } satisfies Record<BarsPhase, Said>,
  why: {
    lost: 'The scale is silent or late.',
    suspect: 'Its readings cannot be believed.',
    underload: 'Less than nothing: free the pan.',
    'not-led': 'Nobody leads the bench.',
    unlike: 'Unlike what it should weigh.',
    'used-up': 'In the record already: put it on again.',
    refused: 'Not taken: put it on again, or go on.',
  } satisfies Record<BarsWhy, string>,
  number: { word: 'net', spoken: (mass: string) => `${mass} on the pan` },
  expected: (low: string, high: string) => `about ${low} to ${high}`,
  last: (bar: string, mass: string) => `${bar}: ${mass}`,
  goOn: { empty: 'this is the free pan', take: 'take it', again: 'weigh it again', end: 'done', waits: 'by itself' },
  back: { not: 'not this', keep: 'keep it', undo: 'cross out', leave: 'leave' },
  help: 'Let the practice hands do it',
  end: { name: 'End', sub: 'this round' },
  say: {
    putOn: (bar: string) => `Put on ${bar}.`,
    taken: (bar: string, mass: string) => `${bar}, ${mass}.`,
    done: 'All weighed.',
    ask: (bar: string) => `Is this ${bar}?`,
  },
} as const;
