import type { Rule } from '#lib/work/history/chart';
import { counted, inWords, listed } from '#lib/words/words';

/** Words of the page about how one pours. */
export const messages = {
  title: 'Your pouring',
  foot: 'Your pouring',
  lead: {
    few: 'With three finished batches or more this page shows how your pours lie, and whether they have changed.',
    steady: (batches: number) => `Over the newest ${inWords(batches)} finished batches no line has moved.`,
    line: (line: string, by: string, up: boolean) => `${line} ends ${by} tolerances ${up ? 'higher' : 'lower'}`,
    moved: (lines: readonly string[]) => `In the newest twelve batches ${listed(lines)} than in those before; no other line has moved.`,
    gain: (percent: string, without: string) =>
      `Of the pours that ended by the word “ease off”, ${percent} came within tolerance; without it ${without} would have.`,
  },
  side: (from: string, to: string) => `${from} to ${to}`,
  choose: {
    title: 'Which batches',
    formula: 'Formula',
    all: 'every formula',
    line: 'Line',
    scale: 'Scale',
    scales: 'every scale',
    person: 'Person',
  },
  line: {
    title: 'One line over many batches',
    note: 'How far each batch ended from its target, in that line’s own tolerances: zero is on target, one is the edge. The grey band is where this line’s own scatter keeps it.',
    label: (line: string, mean: string, upper: string, lower: string) =>
      `${line}: mean ${mean}, own limits ${lower} to ${upper} tolerances`,
    unit: 'tolerances',
  },
  range: {
    title: 'From batch to batch',
    note: 'How far each batch lies from the one before it. A jump over the line is a change at once, not a drift.',
    mean: (value: string) => `mean ${value}`,
    limit: (value: string) => `limit ${value}`,
    label: 'Moving ranges of the same line',
  },
  superfat: {
    title: 'Superfat as poured',
    note: 'At the working values, worked out from what was weighed. Dotted are the formula’s limits where it has some.',
    label: (mean: string) => `Superfat as poured, mean ${mean}`,
    none: 'No batch here could be worked out: typed plans have no superfat.',
  },
  time: {
    title: 'Time for a batch',
    note: 'From its beginning at the bench to its close, in minutes.',
    label: (mean: string) => `Time for a batch, mean ${mean} minutes`,
    unit: 'min',
  },
  stops: {
    title: 'The word “ease off”',
    note: 'What came in after it is what would have come over the target without it: an estimate, since nobody poured that.',
    heads: {
      who: 'who',
      pours: 'pours',
      came: 'came after it',
      off: 'ended off by',
      within: 'within',
      without: 'without it',
      gained: 'nearer by',
    },
    none: 'No pour has ended by it yet.',
    nobody: 'no name',
  },
  few: 'Three batches at least are needed, and here are fewer.',
  chart: {
    mean: (value: string) => `mean ${value}`,
    upper: (value: string) => `upper limit ${value}`,
    lower: (value: string) => `lower limit ${value}`,
  },
  signals: {
    none: 'No rule of the chart speaks.',
    at: (mark: string, rule: string) => `${mark}: ${rule}.`,
  },
  rules: {
    'one-beyond-three': (side: string) => `one batch beyond the ${side} limit`,
    'two-of-three-beyond-two': (side: string) => `two of three beyond two standard deviations ${side} the mean`,
    'four-of-five-beyond-one': (side: string) => `four of five beyond one standard deviation ${side} the mean`,
    'eight-on-one-side': (side: string) => `eight in a row ${side} the mean`,
    'range-beyond': () => 'a jump from the batch before it',
  } satisfies Record<Rule, (side: string) => string>,
  sides: { above: { limit: 'upper', mean: 'above' }, below: { limit: 'lower', mean: 'below' } },
  sources:
    'Individuals and moving range: ISO 7870-2; limits at the mean ± 3 × mean range ÷ 1.128 (NIST/SEMATECH e-Handbook, 6.3.2.2). Rules: Western Electric handbook, 1956. By chance alone they speak now and then of a line that never changed. Of fewer than twenty batches limits are only a beginning: common practice, no source.',
  older: (shown: number) => `The newest ${counted(shown, 'batch', 'batches')}; older ones are left out.`,
  act: { list: 'All batches' },
} as const;
