import type { AverageCheck, AverageStep, Carries, HandbookCheck, HandbookStep, ScaleCheck } from '#lib/soap/net/index';

type Told = (value: number) => string;

const beyond = (limit: string, weights: readonly string[]): string =>
  weights.length === 0 ? `none lighter than ${limit}` : `lighter than ${limit}: ${weights.join(', ')}`;

/** Words of the net content page. */
export const messages = {
  title: 'Net content',
  titleOf: (formula: string) => `Net content of ${formula}`,
  noId: { error: 'No bars are named in this address.', kept: 'Nothing was changed.', todo: 'Open the check from the page of its bars.' },
  noCut: 'These bars are not cut yet: there is nothing to check.',
  back: 'To the bars',
  label: 'To their label',
  weigh: 'Weigh them at the bench',
  lead: {
    passes: 'By the average system this lot may bear its label.',
    fails: 'By the average system this lot may not bear its label.',
    'not-enough': 'Not enough bars were weighed to say.',
    none: 'Type the weight the label states, and weigh bars.',
    scale: {
      good: '',
      'not-good': 'The scale is not good enough to say so.',
      'not-known': 'The scale was not checked: that comes first.',
    } satisfies Readonly<Record<ScaleCheck['verdict'], string>>,
    local: 'Local rules decide which check counts; an inspector’s own check goes before yours.',
  },
  lot: {
    title: 'The lot',
    note: 'One bar lot is one inspection lot. Bars are weighed for this at their own page or hands-free, without wrap.',
    nominal: 'On the label, g',
    size: 'Bars in the lot',
    weighed: (count: number, lot: number) => `${count} of ${lot} weighed for this.`,
    wrong: {
      label: 'A label weight lies from 5 to 10,000 g.',
      size: 'At least as many bars as were weighed, a whole number.',
      number: 'This is no number.',
    },
  },
  weights: {
    grams: 'One more by hand, g',
    act: 'Enter by hand',
    cross: 'Cross out the last weight',
    all: (unit: string) => `Weights${unit === '' ? '' : `, ${unit}`}:`,
    byHand: (count: number, all: number) => (count === all ? '; by hand.' : `; ${count} of ${all} by hand.`),
  },
  scale: {
    title: 'The scale first',
    note: 'A measurement may be off by a fifth of the tolerable error at most. Put a known mass near a bar’s weight on the scale: it is read by itself; or type what it showed.',
    put: 'Put it on the scale',
    again: 'Put it on again',
    say: 'Say what the known mass is, and the bench reads it from the scale.',
    weighed: (known: string) => `A known mass of ${known} g: the scale showed`,
    when: (when: string, step: string) => `g, on ${when}; it counts by ${step} g.`,
    other: 'Another scale told weights of these bars: nothing is known of that one.',
    far: 'That mass is far from a bar’s weight: take one nearer.',
    cross: 'Cross it out',
    known: 'Known mass, g',
    shown: 'It shows, g',
    step: 'It counts by, g',
    verdicts: {
      good: (error: string, most: string) => `Good enough: off by ${error} g at most, ${most} g allowed.`,
      'not-good': (error: string, most: string) => `Not good enough: it may be off by ${error} g, and ${most} g are allowed.`,
      'not-known': (_: string, most: string) => `Not known: no known mass was put on it. ${most} g are allowed.`,
    } satisfies Readonly<Record<ScaleCheck['verdict'], (error: string, most: string) => string>>,
    how: 'What it was off by, three quarters of a step for rounding and zero.',
    handbook: 'By Handbook 133',
  },
  heads: { step: 'step', arithmetic: 'arithmetic', holds: 'whether it holds', source: 'source' },
  holds: { yes: 'holds', no: 'does not hold', waits: 'waits' },
  memory: (text: string) => `from memory: ${text}`,
  average: {
    title: 'Average system',
    note: 'EU and UK: 76/211/EEC and SI 2006/659. Qn is the weight on the label, TNE its tolerable negative error.',
    names: {
      enough: 'Enough bars',
      'below-tne': 'Few below Qn − TNE',
      'below-twice': 'None below Qn − 2·TNE',
      mean: 'The mean',
      guidance: 'Packers’ guidance',
    } satisfies Readonly<Record<AverageStep['kind'], string>>,
    enough: (weighed: number, needed: number, lot: number, whole: boolean) =>
      whole ? `${weighed} of ${lot} weighed; under 100 every one is weighed` : `${weighed} weighed, ${needed} of ${lot} needed`,
    belowTne: (nominal: string, tne: string, limit: string, found: number, of: number, allowed: number) =>
      `${nominal} − ${tne} = ${limit} g: ${found} of ${of} lighter, ${allowed} allowed`,
    belowTwice: (limit: string, weights: readonly string[]) => beyond(`${limit} g`, weights),
    mean: (mean: string, nominal: string, factor: string, deviation: string, limit: string, of: number) =>
      `mean of ${of} is ${mean} g; at least ${nominal} − ${factor} × ${deviation} = ${limit} g`,
    wholeMean: (mean: string, nominal: string, of: number) => `mean of all ${of} is ${mean} g; at least ${nominal} g, without allowance`,
    guidance: (found: number, of: number, allowed: number) =>
      `${found} of ${of} below Qn − TNE; more than ${allowed} is more than packers are advised, and no failure by itself`,
    verdicts: {
      passes: 'The lot passes the reference test.',
      fails: 'The lot fails the reference test: a lower weight on the label, or other bars.',
      'not-enough': 'Nothing can be said yet: weigh more bars.',
    } satisfies Readonly<Record<AverageCheck['verdict'], string>>,
  },
  handbook: {
    title: 'Handbook 133',
    note: 'United States, NIST, category A. Its tables are from memory: look them up before you rely on them.',
    names: { enough: 'Enough bars', individual: 'Each bar', mean: 'The mean error' } satisfies Readonly<
      Record<HandbookStep['kind'], string>
    >,
    enough: (weighed: number, needed: number, lot: number) => `${weighed} weighed, ${needed} of ${lot} needed`,
    individual: (nominal: string, variation: string, limit: string, weights: readonly string[]) =>
      `${nominal} − ${variation} = ${limit} g: ${beyond(`${limit} g`, weights)}`,
    mean: (mean: string, factor: string, deviation: string, limit: string, of: number) =>
      `mean error of ${of} is ${mean} g; at least −(${factor} × ${deviation}) = −${limit} g`,
    verdicts: {
      passes: 'The lot passes both requirements.',
      fails: 'The lot fails.',
      'not-enough': 'Nothing can be said yet: weigh more bars.',
      'not-known': 'No allowable variation is known for a label this heavy.',
    } satisfies Readonly<Record<HandbookCheck['verdict'], string>>,
  },
  carries: {
    title: 'What it could say',
    note: 'The heaviest label this lot can carry. What is not weighed is inferred, with the confidence you ask for.',
    confidence: 'Confidence',
    until: 'True until',
    now: 'now',
    day: (day: number) => `day ${day} after cutting`,
    similar: 'if the room stays similar',
    none: 'Too few bars were weighed to say: five at least.',
    is: (label: string) => `At most ${label} g on the label.`,
    by: {
      mean: (mean: string) => `The mean holds it there: ${mean} g at least.`,
      tne: (mean: string) => `Light bars hold it there, though the mean is ${mean} g at least: too many would be below Qn − TNE.`,
      'twice-tne': (mean: string) =>
        `The lightest bar holds it there, though the mean is ${mean} g at least: it would be below Qn − 2·TNE.`,
    } satisfies Readonly<Record<Carries['by'], (mean: string) => string>>,
    whole: 'Every bar was weighed: nothing is inferred.',
    lightest: (most: Told, value: number) => `Of a hundred bars two or three are lighter than ${most(value)} g.`,
  },
} as const;
