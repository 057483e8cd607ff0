import { capital, listed } from '../_ui/words';
import type { WorkStep } from '#lib/work/formula/index';

/** Words of the plan, and of making a batch ready. */
export const messages = {
  title: 'The plan',
  note: 'In the order of work, as the bench will lead through it.',
  heads: {
    n: 'no.',
    material: 'material',
    vessel: 'into',
    scale: 'scale',
    target: 'weigh',
    tolerance: 'tolerance',
    pours: 'in parts',
    actual: 'weighed',
    lot: 'lot',
  },
  scales: { main: 'big', fine: 'small' },
  noScale: 'by hand',
  all: 'All together',
  carried: (cup: string, into: string) => `${cup}, then into ${into}`,
  pours: (masses: readonly string[]) => masses.join(' + '),
  steps: 'Between the weighings',
  time: {
    typed: (minutes: string) => `About ${minutes} minutes, by the pace you have typed.`,
    measured: (minutes: string) => `About ${minutes} minutes, by your own batches.`,
  },
  ready: {
    act: 'Make a batch ready',
    title: 'Make ready',
    note: 'Chosen now or at the bench; either way the lot in hand is asked for there.',
    asFormula: 'as the formula says',
    lots: 'Lots in hand',
    atBench: 'choose at the bench',
    remark: 'A remark for the bench',
    save: 'Put it on the bench’s list',
    keepFirst: 'Keep the formula first: the bench starts from a version that is kept.',
    must: 'Something above says Must: the bench would refuse this batch.',
    done: 'It stands on the bench’s list.',
    bench: 'Go to the bench',
    leave: 'Not now',
  },
  step(
    step: WorkStep,
    vessel: (id: string) => string,
    mould: (id: string) => string,
    material: (line: string) => string,
    temperature: (celsius: number) => string,
  ): string | null {
    switch (step.kind) {
      case 'protect':
        return `${capital(step.items.map((item) => ITEMS[item] ?? item).join(', '))}. The safety data sheet and local rules come first.`;
      case 'weigh':
        return null;
      case 'stir-in':
        return `Stir ${material(step.line)} into the ${vessel(step.into)}, before any hydroxide.`;
      case 'melt':
        return `Melt what is in the ${vessel(step.vessel)}${step.above === null ? '' : `, above ${temperature(step.above)}`}.`;
      case 'confirm-cold':
        return `See that the ${vessel(step.vessel)} is at ${temperature(step.celsius)} or below before the hydroxide goes in.`;
      case 'dissolve':
        return `Hydroxide from the ${vessel(step.vessel)} into the ${vessel(step.into)}, never the other way${step.slowly ? ', slowly' : ''}${step.peak === null ? '' : `; it can get ${temperature(step.peak)}`}.`;
      case 'meet':
        return `Lye and oils both between ${temperature(step.low)} and ${temperature(step.high)}, no more than ${step.apart} °C apart.`;
      case 'join':
        return `Lye into the ${vessel(step.vessel)}.`;
      case 'pour':
        break;
    }
    return step.moulds.length === 0 ? 'Pour.' : `Pour into ${listed(step.moulds.map(mould))}.`;
  },
} as const;

const ITEMS: Readonly<Record<string, string>> = {
  goggles: 'goggles on',
  'face-shield': 'a face shield over them',
  gloves: 'gloves on',
  ventilation: 'a window open',
  'running-water': 'running water within reach',
  'nobody-near': 'nobody else near',
  material: 'the hydroxide checked against its lot',
};
