import type { LotFault } from '#lib/work/lots/fitness';
import { capital, listed } from '#lib/words/words';
import type { MeltStep, WorkStep } from '#lib/work/formula/index';

/** What a step names, as people say it. Temperatures in °C, differences in K. */
export interface StepWords {
  readonly vessel: (id: string) => string;
  readonly mould: (id: string) => string;
  readonly material: (line: string) => string;
  readonly temperature: (celsius: number) => string;
  readonly difference: (kelvin: number) => string;
}

/** Words of the plan, and of making a batch ready. */
export const messages = {
  title: 'The plan',
  note: 'In the order of work, as the bench will lead through it.',
  heads: {
    n: 'no.',
    material: 'material',
    target: 'weigh',
    tolerance: 'tolerance',
    actual: 'weighed',
    lot: 'lot',
  },
  scales: { main: 'big scale', fine: 'small scale' },
  noScale: 'by hand',
  all: 'All together',
  into: (vessel: string) => `into the ${vessel}`,
  carried: (cup: string, into: string) => `in the ${cup}, then into the ${into}`,
  byLoss: (vessel: string) => `from its bottle on the scale into the ${vessel}`,
  pours: (masses: readonly string[]) => `in ${masses.length} parts: ${masses.join(' + ')}`,
  time: {
    about: 'About',
    minutes: (minutes: string) => `${minutes} minutes`,
    typed: ', by the pace you have typed.',
    measured: ', by your own batches.',
  },
  ready: {
    act: 'Make a batch ready',
    title: 'Make ready',
    warnings: 'Before you weigh it so',
    note: 'Chosen now or at the bench; either way the lot in hand is asked for there.',
    asFormula: 'as the formula says',
    lots: 'Lots in hand',
    atBench: 'choose at the bench',
    lot: {
      first: 'use first',
      until: (day: string) => `until ${day}`,
      faults: { expired: 'past its day', quarantined: 'set apart', 'used-up': 'used up' } satisfies Record<LotFault, string>,
    },
    remark: 'A remark for the bench',
    save: 'Put it on the bench’s list',
    keepFirst: 'Keep the formula first: the bench starts from a version that is kept.',
    must: 'Something says Must: the bench would refuse this batch.',
    done: 'It stands on the bench’s list.',
    bench: 'Go to the bench',
    leave: 'Not now',
  },
  step(step: WorkStep, { vessel, mould, material, temperature, difference }: StepWords): string | null {
    switch (step.kind) {
      case 'protect':
        return `${capital(step.items.map((item) => ITEMS[item] ?? item).join(', '))}. The safety data sheet and local rules come first.`;
      case 'weigh':
        return null;
      case 'stir-in':
        return `Stir ${material(step.line)} into the ${vessel(step.into)}, before any hydroxide.`;
      case 'melt':
        return `Melt what is in the ${vessel(step.vessel)}${step.above === null ? '' : `, above ${temperature(step.above)}`}.${step.how === null ? '' : ` ${meltWords(step.how, temperature)}`}`;
      case 'confirm-cold':
        return `See that the ${vessel(step.vessel)} is at ${temperature(step.celsius)} or below before the hydroxide goes in.`;
      case 'dissolve':
        return `Hydroxide from the ${vessel(step.vessel)} into the ${vessel(step.into)}, never the other way${step.slowly ? ', slowly' : ''}${step.peak === null ? '' : `; it can get ${temperature(step.peak)}`}.`;
      case 'meet':
        return `Lye and oils both between ${temperature(step.low)} and ${temperature(step.high)}, no more than ${difference(step.apart)} apart.`;
      case 'join':
        return `Lye into the ${vessel(step.vessel)}.`;
      case 'pour':
        break;
    }
    return step.moulds.length === 0 ? 'Pour.' : `Pour into ${listed(step.moulds.map(mould))}.`;
  },
} as const;

/** Common practice, no source, and said so. */
const meltWords = (
  { order, heatTo, afterwards, maySet, pourAt, wished, setsBelow }: MeltStep,
  temperature: StepWords['temperature'],
): string => {
  const [hard, then] = [listed(order), temperature(Math.round(afterwards))];
  const sets = maySet.length === 0 ? '' : `; ${listed(maySet)} may begin to set in it then`;
  const middle =
    pourAt === null
      ? `It cannot come to ${temperature(wished)} so: warm the whole pot`
      : `For ${temperature(wished)} let it come down or up to ${temperature(Math.round(pourAt))} first`;
  const warm = setsBelow === null ? '' : ` Keep it above ${temperature(Math.ceil(setsBelow))}: below that a fat of it may begin to set.`;
  return `By themselves ${hard}, the hardest first, to ${temperature(heatTo)} until clear: with the rest in, the pot is then at about ${then}${sets}. ${middle}.${warm} Common practice, no source.`;
};

const ITEMS: Readonly<Record<string, string>> = {
  goggles: 'goggles on',
  'face-shield': 'a face shield over them',
  gloves: 'gloves on',
  ventilation: 'a window open',
  'running-water': 'running water within reach',
  'nobody-near': 'nobody else near',
  material: 'the hydroxide checked against its lot',
};
