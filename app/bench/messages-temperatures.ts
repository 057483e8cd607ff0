import type { Turn, NoForecast } from '#lib/soap/cooling/types';
import type { MakingLane } from '#lib/protocol/forecast';

type Vessel = 'lye' | 'oils';
const VESSELS: Readonly<Record<Vessel, string>> = { lye: 'Lye', oils: 'Oils' };

/** Words of the page that shows the temperatures by themselves. */
export const temperatureMessages = {
  title: 'Temperatures',
  /** Beside what holds joining. */
  holds: {
    figures: (value: string, limit: string) => `${value}, allowed ${limit}`,
    overridden: 'allowed, on record',
    advice: 'advice only',
  },
  above: (amount: string) => `${amount} above the window`,
  below: (amount: string) => `${amount} below the window`,
  apart: (amount: string) => `${amount} apart`,
  curves: 'Lye and oils: the last minutes, and what is expected with its 95 % interval',
  ago: (minutes: number) => (minutes === 0 ? 'now' : minutes > 0 ? `−${minutes} min` : `+${-minutes} min`),
  vessels: VESSELS,
  rows: 'What is expected',
  /** Times from now. */
  span: (low: number, high: number) => (low === 0 ? `within ${high} min` : `in ${low}–${high} min`),
  about: (minutes: number) => (minutes === 0 ? 'now' : `in ${minutes} min`),
  meet: {
    unknown: 'Lye and oils',
    none: 'Not enough yet',
    suspect: 'A probe is suspect',
    rising: 'Still warming',
    met: 'They meet now',
    in: (span: string) => `Meet ${span}`,
    'not-before': (minutes: number) => `Not before ${minutes} min`,
    never: 'Never by themselves',
    unless: 'Never unless you act',
  },
  /** The same in passing, beside something else. */
  passing: {
    met: 'meet now',
    in: (span: string) => `meet ${span}`,
    'not-before': (minutes: number) => `not before ${minutes} min`,
    never: 'never unless you act',
  },
  brings: {
    met: 'then they meet at once',
    in: (span: string) => `then they meet ${span}`,
    'not-before': (minutes: number) => `then not before ${minutes} min`,
    never: 'and still they would not meet',
  },
  act: (kind: 'warm' | 'cool', vessel: Vessel, to: string) => `${kind === 'warm' ? 'Warm' : 'Cool'} the ${vessel} to ${to}`,
  start: (when: string, brings: string) => `${when}: ${brings}`,
  joinable: (when: string) => `Joining is allowed ${when}`,
  advice: 'outside the formula’s difference, which only advises',
  setting: {
    what: { maker: (span: string) => `Oils start to set ${span}`, melting: (span: string) => `A fat may begin to set ${span}` },
    soon: (minutes: number) => `Oils may start to set from ${minutes} min on`,
    warm: (to: string) => `warm the pot to ${to} now`,
    noWarmth: 'no temperature of the window lasts until they meet: join sooner, or warm again then',
    now: 'slowed, as where a fat sets: nobody knows for how long',
  },
  none: {
    'nothing-heard': () => 'nothing heard yet',
    'not-yet': (blocks: number, needed: number) => `too early to say: ${20 * blocks} of ${20 * needed} s heard`,
    silent: () => 'silent for a while: nothing is expected of it',
    rising: () => 'warming: expected again once it turns',
    suspect: () => 'suspect: what it says now does not fit what it said before',
    out: () => 'suspect: the probe seems to hang in the air. Put it back',
    wide: () => 'too unsure to say',
  } satisfies Record<NoForecast, (blocks: number, needed: number) => string>,
  drop: {
    what: (vessel: Vessel, turn: string) => `${VESSELS[vessel]} ${turn}`,
    when: (noticed: string, began: string) => `noticed ${noticed}, began ${began}`,
    turns: {
      faster: 'cooling faster',
      slower: 'cooling slower',
      warms: 'warming',
      sets: 'slower: a fat may set',
      leapt: 'leapt',
      said: 'changed, you said',
    } satisfies Record<Turn, string>,
  },
  making: {
    expected: 'Lye expected to reach',
    ahead: (likely: string, most: string) => `${likely}; at most ${most}`,
    reached: (highest: string) => `Lye reached ${highest}`,
    against: (likely: string, verdict: string) => `expected ${likely}: ${verdict}`,
    verdicts: {
      'as-foretold': 'as expected',
      below: 'cooler than expected. Is all of it in, and stirred?',
      above: 'hotter than expected. Check what went in',
    } satisfies Record<NonNullable<MakingLane['found']>['verdict'], string>,
    hot: 'Hot lye',
    steams: 'a jug rated for it, in a basin; face away',
    scorches: 'Milk scorches',
    limit: (above: string) => `above ${above}, by this formula`,
    scorch: 'For the milk not to scorch',
    advice: {
      'in-portions': 'a little hydroxide at a time, cooled between',
      'as-it-is': 'start as it is',
    },
    cold: (to: string) => `start it at ${to} or colder`,
    frozen: (percent: number) => `start with ${percent} % of it frozen`,
  },
  swapped: { what: 'Are the probes swapped?', so: 'the oils’ probe heats as lye does. Look, and put each into its own vessel' },
  /** Under the name of a vessel: sooner said than noticed. */
  moved: 'lid, stir, moved',
  /** How a reading comes about, opened from it. */
  reading: {
    title: (vessel: string) => `${vessel}: how this is read`,
    checked: 'Its probe was held beside a reference. What was found then counts in every reading; the check itself stands under Setup.',
    unchecked: 'This probe was never held beside a reference: what it shows counts as it is. A check is made under Setup.',
    lost: 'Nothing is read now.',
    shows: 'the probe shows',
    adds: 'its check adds',
    counts: 'what counts',
  },
} as const;
