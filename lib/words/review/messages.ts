import type { Turn } from '#lib/soap/cooling/types';
import type { BatchReview, HoldReason, TraceMark } from '#lib/work/batch/index';
import { capital, counted, inWords } from '../words';

type Status = BatchReview['summary']['status'];
type Counts = Pick<BatchReview['summary'], 'overPours' | 'overrides' | 'byHand' | 'stated'>;

/** Words of one batch's review, but for its story (see `messages-story`). */
export const messages = {
  title: 'Review',
  titles: {
    weighing: (name: string) => `${name}, so far`,
    joined: (name: string) => `${name}, joined`,
    parked: (name: string) => `${name}, parked`,
    abandoned: (name: string) => `${name}, stopped early`,
    closed: (name: string) => `${name}, reviewed`,
  } satisfies Record<Status, (name: string) => string>,
  made: (day: string, from: string, to: string | null) => (to === null ? `Begun ${day}, ${from}.` : `Made ${day}, ${from} to ${to}.`),
  version: (version: number) => `Formula version ${version}.`,
  realm: {
    real: '',
    practice: 'Practice: this record can never pass for a real one.',
    test: 'Test bench: this record can never pass for a real one.',
  },
  lead: {
    /** `begun`: lines that have something in them. */
    lines(closed: number, of: number, within: number, begun = closed): string {
      if (closed === 0) return begun > 0 ? 'No line is finished.' : 'Nothing is weighed yet.';
      const came =
        within === closed
          ? closed === 1
            ? 'and within tolerance'
            : 'all of them within tolerance'
          : `${inWords(within)} within tolerance`;
      return closed === of
        ? `${capital(counted(closed, 'line'))} weighed, ${came}.`
        : `${capital(inWords(closed))} of ${inWords(of)} lines weighed, ${came}.`;
    },
    /** `amounts`: taken out, moved, lost or poured by a person's word. */
    departures({ overPours, overrides, byHand, stated = 0 }: Counts, moved: number, amounts = 0): string {
      const parts = [
        ...(overPours > 0 ? [counted(overPours, 'over-pour')] : []),
        ...(overrides > 0 ? [counted(overrides, 'override by a person', 'overrides by a person')] : []),
        ...(byHand > 0 ? [counted(byHand, 'weight typed by hand', 'weights typed by hand')] : []),
        ...(amounts > 0 ? [counted(amounts, 'other amount by hand', 'other amounts by hand')] : []),
        ...(stated > 0 ? [counted(stated, 'deviation written down', 'deviations written down')] : []),
        ...(moved > 0 ? [counted(moved, 'target moved', 'targets moved')] : []),
      ];
      if (parts.length === 0) return 'No over-pour, nothing overridden, nothing typed by hand.';
      return `${capital(parts.join(', '))}.`;
    },
  },
  acts: { print: 'Print the record', bench: 'Go to the bench', list: 'All batches' },
  out: {
    pdf: 'Batch record, PDF',
    csv: 'Every weight, CSV',
    json: 'The whole batch, JSON',
  },
  asking: 'Reading the record',
  noId: {
    error: 'No batch is named in this address.',
    kept: 'Nothing is lost.',
    todo: 'Open a batch from the list of batches.',
  },
  against: {
    title: 'Actual against planned',
    note: 'Every difference in its own line’s tolerances, so that grams of lye and grams of olive oil can be read off one scale. Inside the band is inside tolerance.',
    moved: 'Where a target was moved, the difference is from the moved one.',
    crossed: 'A dashed bar is a weight that was crossed out. Both show for ever.',
    caption: 'Every line, planned and actual',
    heads: {
      line: 'line',
      lot: 'lot',
      planned: 'planned',
      moved: 'moved to',
      actual: 'actual',
      difference: 'difference',
      tolerance: 'tolerance',
      away: 'tolerances away',
    },
    total: 'All lines',
    totalWorkings: (terms: string, sum: string) => `Every actual weight above, added: ${terms} = ${sum}.`,
    totalRow: 'Workings of the sum',
    byHand: 'by hand',
    open: 'not weighed',
    unfinished: 'not finished',
    underPlanned: (target: string) => `of ${target}`,
    underMoved: (target: string) => `of ${target}, moved`,
    over: (away: string) => `${away} over`,
    short: (away: string) => `${away} short`,
    crossedOut: (away: string) => `${away}, crossed out`,
    within: 'within tolerance',
    spoken: (away: string) => `${away} tolerances away`,
    openRow: (material: string) => `Workings of ${material}`,
  },
  workings: {
    title: (material: string) => `${material}: how its weight came about`,
    heads: { at: 'at', what: 'what', net: 'net', shown: 'as stated', where: 'on', lot: 'lot' },
    kinds: {
      pour: 'poured',
      typed: 'typed by hand',
      brought: 'set aside by another batch',
      'weigh-back': 'weighed back',
      withdrawn: 'taken out',
      lost: 'lost',
    },
    how: { 'by-itself': 'accepted by itself', 'go-on': 'accepted by a person', held: 'held to accept', typed: 'typed and read back' },
    provisional: 'not yet lifted',
    noLot: 'none stated',
    sum: 'Actual',
    target: 'Target',
    difference: 'Difference',
    away: (difference: string, tolerance: string, away: string) => `${difference} ÷ ${tolerance} = ${away} tolerances`,
    crossed: (reason: string, at: string) => `crossed out at ${at}: ${reason}`,
  },
  story: {
    by: (who: string) => `(${who})`,
    title: 'What happened',
    note: 'Told from the record, in its order. A letter names what departed from the plan; the same letter stands in its line’s row.',
  },
  joining: {
    title: 'Joining',
    note: 'Both had to be in the window, and near enough to each other.',
    not: 'Not joined.',
    unknown: 'not known',
    lye: 'lye',
    oils: 'oils',
    window: 'window',
    sets: 'oils begin to set',
    course: (minutes: number) => `The way lye and oils took in the ${minutes} minutes before joining.`,
    foretold: {
      told: (before: number, middle: number, low: number, high: number) =>
        `Foretold ${before} min before joining: they meet by themselves in ${middle} min, 95 times in 100 in ${low} to ${high} min.`,
      met: (after: number, how: 'inside' | 'sooner' | 'later') =>
        `They met after ${after} min, ${{ inside: 'inside that span', sooner: 'sooner than that', later: 'later than that' }[how]}.`,
      unmet: 'They were joined before they met.',
      mark: (of: string, turn: string, began: number, after: number) =>
        `${of} ${turn}, from ${began} min before joining; noticed ${after} min later.`,
      turns: {
        faster: 'cooled faster',
        slower: 'cooled slower',
        warms: 'warmed',
        sets: 'cooled slower, as where a fat sets',
        leapt: 'leapt',
        said: 'moved, covered or stirred, a person said',
      } satisfies Record<Turn, string>,
    },
    ago: (minutes: number) => (minutes === 0 ? 'joined' : `−${minutes} min`),
    milk: 'milk scorches',
    at: (at: string) => `Joined at ${at}.`,
    apart: 'apart',
    limit: (allowed: string) => `; ${allowed} were allowed.`,
    workings: (lye: string, oils: string, apart: string) => `Lye ${lye}, oils ${oils}; apart ${apart}.`,
    apartUnknown: 'How far apart they were is not known.',
    allowed: (what: string, value: string, limit: string) => `A person allowed it although ${what}: ${value}, limit ${limit}.`,
    allowedHeavy: (least: string, chance: string) =>
      `A person went on although it might be lye-heavy: superfat perhaps as low as ${least}, chance of lye left over ${chance}.`,
    allowedBare: (what: string) => `A person allowed it although ${what}.`,
    picture: (lye: string, oils: string, low: string, high: string) => `Lye ${lye}, oils ${oils}; window from ${low} to ${high}.`,
    holds: {
      'lye-too-hot': 'the lye was too hot',
      'lye-too-cold': 'the lye was too cold',
      'oils-too-hot': 'the oils were too hot',
      'oils-near-setting': 'the oils were near setting',
      'milk-too-hot': 'the milk was too hot',
      apart: 'they were too far apart',
      'temperature-unknown': 'a temperature was not known',
      'may-be-lye-heavy': 'it might be lye-heavy',
    } satisfies Record<HoldReason, string>,
  },
  after: {
    title: 'Trace and portions',
    heads: { what: 'what', at: 'at', batter: 'batter', mass: 'mass' },
    trace: {
      thin: 'Thin trace',
      medium: 'Medium trace',
      thick: 'Thick trace',
      wrong: 'Something wrong',
    } satisfies Record<TraceMark, string>,
  },
  scales: {
    title: 'Scales',
    note: 'One known mass on the empty pan shows what a scale is worth. It is asked for in Setup while a batch is on the bench.',
    heads: { scale: 'scale', weights: 'weights', known: 'known mass', shown: 'it showed', difference: 'difference', at: 'checked' },
    never: 'never checked against a known mass',
    openRow: (scale: string) => `Workings of the check of the ${scale}`,
    workings: (shown: string, known: string, difference: string) =>
      `It showed ${shown}; known were ${known}. ${shown} − ${known} = ${difference}.`,
    before: 'checked before this batch',
    none: 'No scale was used.',
  },
  record: {
    title: 'The record',
    note: 'Each entry carries the hash of the one before. Kept elsewhere, on paper say, this head shows whether anything up to it was changed.',
    honest: 'Who holds this machine could write a whole new record; only a head kept elsewhere tells.',
    head: (entries: string, seq: string, realm: string) =>
      `Head, SHA-256. ${entries} entries of this batch; the newest is line ${seq} of the journal of ${realm}.`,
    realms: { real: 'the real bench', practice: 'the practice bench', test: 'the test bench' },
  },
  print: {
    title: 'Batch record',
    remarks: 'Remarks',
    sign: ['Released for sale, or not, and why', 'Date', 'Signature'],
    legend:
      'Typewriter face: measured by an instrument. All else was entered or worked out. No figure here is a promise of safety; it does not replace the safety data sheet, local rules or a qualified person.',
  },
  foot: (mark: string) => `Batch ${mark}`,
} as const;
