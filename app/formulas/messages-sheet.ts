import type { Pattern } from '#lib/work/batch/pouring/types';
import type { Amount, FigureGrade, Part } from '#lib/work/formula/index';
import { capital, inWords } from '#lib/words/words';

/** Measures a quantity may be typed in, as one list. */
export const MEASURES = {
  percent: '% of the oils',
  'percent-batter': '% of the batter',
  'percent-liquid': '% of the liquid',
  'percent-hydroxide': '% of the moles',
  'percent-blend': '% of the blend',
  g: 'g',
  kg: 'kg',
  oz: 'oz, weight',
  lb: 'lb',
  mg: 'mg',
  ml: 'mL',
  'us-fl-oz': 'US fl oz',
  'imperial-fl-oz': 'imperial fl oz',
  rest: 'what is left',
  'ounces-unclear': 'oz: weight or fluid?',
  unweighed: 'as written, not weighed',
} as const;
export type Measure = keyof typeof MEASURES;

/** Words of one formula's sheet. */
export const messages = {
  title: 'Formula',
  unnamed: 'A new formula',
  noNumber: (text: string) => `“${text}” is no number.`,
  version: (version: number) => (version === 0 ? 'not kept yet' : `version ${version}`),
  /** What a sheet, on the screen or on paper, is a sheet of. */
  standing: (version: number, changed: boolean): string =>
    version > 0 && changed ? `version ${version}, changed, not kept` : messages.version(version),
  arrived: 'Something of the workshop was changed on another screen; this plan goes by it already.',
  newer: (version: number) => `Version ${version} was kept on another screen meanwhile.`,
  printed: {
    figures: (superfat: string, lye: string) => `Superfat ${superfat} %; hydroxide in the lye ${lye} %.`,
    mould: (count: number, name: string, percent: string) => `${count} × ${name}, ${percent} % full`,
    day: (day: string, version: string) => `Printed ${day}; ${version}.`,
    hand: 'Batch ______________   Date ______________   Weighed by ______________',
  },
  notHeld: 'This screen cannot hold what is typed: keep it before you leave.',
  name: 'Name',
  note: 'In a few words',
  none: {
    error: 'There is no such formula in this workshop.',
    kept: 'Nothing was changed.',
    todo: 'Open one from the list of formulas, or begin a new one there.',
  },
  lead: {
    fats: ' of oils make ',
    batter: ' of batter.',
    not: (count: number) =>
      count === 1
        ? 'One thing is still asked for; it stands where it belongs below.'
        : `${capital(inWords(count))} things are still asked for; each stands where it belongs below.`,
    asking: 'Working it out.',
  },
  acts: {
    keep: 'Keep it',
    keepAs: (version: number) => `Keep it as version ${version}`,
    kept: 'Kept',
    undo: 'Undo',
    redo: 'Redo',
    print: 'Print the weigh sheet',
    json: 'Save as a file',
    csv: 'Save the lines (CSV)',
    drop: 'Throw away what is not kept',
    newest: 'Keep mine above the newest',
    show: (version: number) => `Show version ${version}`,
    why: 'Why it was changed',
  },
  parts: {
    fat: {
      title: 'Oils',
      add: 'Add an oil',
      thing: 'oil',
      note: 'Type shares or weights; “what is left” fills up to a hundred. The working value is what is reckoned with. It lies inside its source’s range; a supplier’s certificate takes its place.',
    },
    alkali: { title: 'Hydroxide', add: 'Add a hydroxide', thing: 'hydroxide', note: 'How pure it is stands on its bag: choose the lot.' },
    liquid: { title: 'Liquids', add: 'Add a liquid', thing: 'liquid', note: 'Lye goes into the water, never water into lye.' },
    acid: {
      title: 'Acids',
      add: 'Add an acid',
      thing: 'acid',
      note: 'What an acid takes is added to the hydroxide, so that the superfat stays.',
    },
    fragrance: {
      title: 'Fragrance',
      add: 'Add a fragrance',
      thing: 'fragrance',
      note: 'Limits are your suppliers’ certificates, for a soap that is rinsed off. None is shipped with this program.',
    },
    extra: {
      title: 'Everything else',
      add: 'Add something',
      thing: 'material',
      note: 'Clay, colour, sugar, salt, oats. Weighed aside unless you say otherwise.',
    },
  } satisfies Readonly<Record<Part, unknown>>,
  heads: {
    amount: 'as typed',
    measure: 'measure',
    weight: 'weight',
    share: 'share',
    value: 'working value',
    takes: 'takes NaOH',
    remove: 'take out',
    lot: 'lot',
    tolerance: 'tolerance',
  },
  all: 'All oils',
  giveWay: 'While one share is typed the others make room, so that all stay a hundred; a share that is locked stays.',
  ofBatter: 'of the batter',
  choose: 'choose',
  noLot: 'lot: not chosen',
  lotOf: (name: string) => `Lot of ${name}`,
  remove: (name: string) => `take out: ${name}`,
  amountOf: (name: string) => `How much ${name}`,
  measureOf: (name: string) => `Measure of ${name}`,
  whichOne: 'Which of these is meant?',
  said: (amount: Amount): string => amountWords(amount),
  blend: {
    called: 'Name of the blend',
    name: 'Blend',
    make: 'Make one blend of these',
    part: 'Part this blend',
    sum: 'In the driest bar the shares of their limits add up to',
    ofLimit: (sum: string) => `${sum} of its limit`,
    most: ['of 1. In these proportions', 'is the most.'],
    notKnown: (names: string) => `No certificate limit for ${names}: what the whole may be is not known.`,
    allergens: 'Allergens in the bar, from the certificates',
    declared: 'on the label',
  },
  lye: {
    title: 'Lye',
    note: 'Asked once, remembered as yours. What is worked out stands beside what you asked for.',
    superfat: 'Superfat, %',
    kind: 'Strength of the lye by',
    kinds: { concentration: 'hydroxide in the lye, %', ratio: 'water to one of hydroxide', none: 'the weights typed' },
    value: { concentration: 'Hydroxide in the lye, %', ratio: 'Water to one of hydroxide' },
    heads: { what: 'result', asked: 'asked for', worked: 'worked out', verdict: 'within / check' },
    rows: {
      superfat: 'Superfat',
      concentration: 'Lye concentration',
      peak: 'Hottest the lye can get, if no heat left the jug',
      iodine: 'Iodine value, by the profiles of the oils',
      soap: 'Soap, without its water',
      glycerol: 'Glycerol in it',
      freeFat: 'Fat left in it',
      water: 'Water in the batter after the reaction',
    },
    verdicts: { within: 'within', check: 'check' },
    unknown: 'not known',
    ratio: (water: string) => `${water} to 1`,
    interval: (low: string, high: string, chance: string) =>
      `${low} to ${high} % in 95 of 100 (k = 2), by what is known of the oils and the hydroxide; lye-heavy: ${chance}.`,
    worst: (low: string, high: string) => `With everything at its worst end at once ${low} to ${high} %.`,
    chance: {
      none: 'below 1 chance in 10 000',
      some: (of: string) => `1 chance in ${of}`,
      more: (percent: string) => `${percent} chances in 100`,
    },
  },
  card: {
    title: 'As it stands on the card',
    note: 'With its own hydroxide and liquid, typed as they are written.',
    gives: 'These weights really give a superfat of',
    within: (low: string, high: string) => `, ${low} to ${high} % in 95 of 100.`,
    claims: (percent: string) => `The card says ${percent} %.`,
    lye: ['Its lye is', 'hydroxide.'],
    unknown: 'What it really gives is not known while something of it is unfinished.',
    unweighed: (text: string) => `“${text}” is kept as written and left out of every figure.`,
  },
  size: {
    title: 'How large',
    kind: 'The batch is as large as',
    kinds: { typed: 'the weights typed', fats: 'its oils', batch: 'the whole batter', bars: 'so many bars', moulds: 'the moulds hold' },
    value: 'Weight',
    unit: 'Unit',
    count: 'Bars',
    each: 'One bar as poured',
  },
  moulds: {
    title: 'Moulds',
    note: 'Drawn to scale from the side, and as full as they will be.',
    add: 'Add a mould',
    none: 'No mould is noted in this workshop yet.',
    pattern: 'pattern',
    unnamed: 'pattern: named at the bench',
    patterns: {
      'plain-pour': 'plain pour',
      'in-the-pot-swirl': 'in-the-pot swirl',
      'drop-swirl': 'drop swirl',
      'hanger-swirl': 'hanger swirl',
      layers: 'layers',
      'other-pattern': 'another pattern',
    } satisfies Record<Pattern, string>,
    partsTitle: 'Parts of the batter',
    partsNote:
      'What leaves the pot for a jug of its own, to be coloured or scented apart; the rest stays plain. At the bench its additives are weighed for the grams really in it.',
    partName: 'Part',
    partPercent: 'of the batter, %',
    addPart: 'Part off some of the batter',
    removePart: (name: string) => `Take out the part ${name}`.trim(),
    newPart: (number: number) => `Part ${number}`,
    heads: {
      mould: 'mould',
      count: 'how many',
      fill: 'fill to',
      brim: 'to the brim',
      batter: 'batter in each',
      full: 'full',
      left: 'left above',
    },
    full: (percent: string) => `${percent} % full`,
    cube: 'Dotted: its shape is not known, and a cube that holds as much is drawn for each cavity.',
    batter: 'of batter, density',
    parts: 'from its parts.',
    learnt: (batches: number) =>
      `from its parts, corrected by how full ${batches === 1 ? 'one of your own batches' : `${batches} of your own batches`} got.`,
    lost: (residue: string | null, percent: string | null) =>
      residue === null && percent === null
        ? 'Nothing is taken off for the pot and the pouring: nobody has said how much.'
        : `${[...(residue === null ? [] : [`${residue} stay in the pot`]), ...(percent === null ? [] : [`${percent} % are lost in pouring`])].join(' and ')}, as you have said.`,
    ruleBefore: 'The trade’s rule for a loaf would put',
    rule: (percent: string, less: boolean) =>
      `of oils into those that are loaves, as full as wished; here are ${percent} % ${less ? 'less' : 'more'}. Common practice, no source.`,
  },
  warnings: {
    title: 'Before you weigh',
    note: { must: 'What says Must stops the batch.', none: 'Nothing here stops the batch.' },
    nothing: 'Nothing to say.',
    levels: { must: 'Must', mind: 'Mind', note: 'Note' },
    workings: 'its workings',
  },
  workings: {
    from: 'from',
    value: 'value',
    source: 'source',
    u: (u: string, unit: string) => `± ${`${u} ${unit}`.trim()} (k = 2).`,
    madeOf: (parts: string) => `Of its square: ${parts}.`,
    range: (low: string, high: string) => `${low}–${high}`,
    back: 'Back',
  },
  grades: {
    standard: 'standard',
    handbook: 'handbook',
    certificate: 'certificate',
    'from memory': 'from memory',
    'common practice': 'common practice, no source',
    computed: 'worked out',
    typed: 'typed',
  } satisfies Readonly<Record<FigureGrade, string>>,
  elsewhere: 'Also asked for',
} as const;

function amountWords(amount: Amount): string {
  switch (amount.kind) {
    case 'share':
      return `${amount.percent} ${MEASURES[amount.of === 'fats' ? 'percent' : (`percent-${amount.of}` as const)]}`;
    case 'mass':
      return `${amount.value} ${amount.unit}, weight`;
    case 'volume':
      return `${amount.value} ${MEASURES[amount.unit]}`;
    case 'rest':
      return MEASURES.rest;
    case 'ounces-unclear':
      return `${amount.value} ${MEASURES['ounces-unclear']}`;
    case 'unweighed':
      break;
  }
  return amount.text;
}
