import { as } from '#lib/units/id';
import type { LotId } from '#lib/units/id';
import type { LinePlan, Plan } from '#lib/work/batch/index';
import { joining, line, vessel } from '#lib/work/formula/sample/make';
import { planOf } from '../batch';

const pot = vessel('pot', 'oils pot', 'oils', 'stainless', 642.5, 3_000);
const jug = vessel('jug', 'lye jug', 'liquid', 'plastic-pp', 187.3, 1_000);
const cup = vessel('cup', 'soda cup', 'hydroxide', 'plastic-hdpe', 58.4, 400);
const glass = vessel('glass', 'scent glass', 'aside', 'glass', 96.2, 100);

const butter = line('butter', {
  name: 'butter',
  class: 'hard-oil',
  phase: 'oils',
  target: 120,
  tolerance: 1.2,
  upper: 131,
  vessel: 'pot',
  perGram: 85,
});
const oil = line('oil', {
  name: 'oil',
  class: 'liquid-oil',
  phase: 'oils',
  target: 80,
  tolerance: 0.8,
  upper: 84,
  vessel: 'pot',
  perGram: 87,
});
const bottled = line('bottled', {
  name: 'bottled oil',
  class: 'liquid-oil',
  phase: 'oils',
  target: 60,
  tolerance: 0.6,
  upper: null,
  vessel: 'pot',
  mode: 'loss',
  perGram: 87,
});
const water = line('water', {
  name: 'water',
  class: 'liquid',
  phase: 'liquid',
  target: 90,
  tolerance: 0.9,
  upper: 96,
  vessel: 'jug',
  perGram: 0,
});
const soda = line('soda', {
  name: 'soda',
  class: 'hydroxide',
  phase: 'hydroxide',
  target: 40,
  tolerance: 0.4,
  upper: 41,
  vessel: 'cup',
  perGram: -675,
});
const scent = line('scent', {
  name: 'scent',
  class: 'fragrance',
  phase: 'aside',
  target: 12,
  tolerance: 0.15,
  upper: null,
  vessel: 'glass',
  scale: 'fine',
  perGram: 0,
});
/** Weighed after joining. */
const late = {
  ...line('late', {
    name: 'late oil',
    class: 'liquid-oil',
    phase: 'trace',
    target: 20,
    tolerance: 0.4,
    upper: 24,
    vessel: 'glass',
    scale: 'fine',
    perGram: 90,
  }),
};

const plan = (id: string, lines: readonly LinePlan[]): Plan => ({
  formula: { id, name: id, version: 1 },
  vessels: [pot, jug, cup, glass],
  lines: lines.map((one) => ({ ...one, lot: { id: as<LotId>(`lot-${one.id}`), mark: `lot of ${one.id}` } })),
  joining: joining(null),
});

const unstated = (whole: Plan, id: string): Plan => ({
  ...whole,
  lines: whole.lines.map((one) => (one.id === id ? { ...one, lot: null } : one)),
});

/** A half of the batter to part off with something of its own, and two moulds, one without a pattern yet. */
const moulds: Plan = {
  ...plan('moulds', [oil, { ...late, part: 'half' }, water, soda]),
  moulds: ([null, 'drop-swirl'] as const).map((pattern, at) => ({
    n: at + 1,
    mould: 'log',
    name: `log ${at + 1}`,
    brimMl: null,
    mass: null,
    pattern,
  })),
  parts: [{ id: 'half', name: 'half', ppm: 500_000 }],
};

/** Small plans in which everything a line can be comes up soon; the last is one of the workshop's own. */
export const MODEL_PLANS: Readonly<Record<string, Plan>> = {
  'one pot': plan('one pot', [butter, oil, water, soda]),
  'soda first': plan('soda first', [soda, water, oil]),
  'two scales': plan('two scales', [scent, oil, late, water, soda]),
  'no lot': unstated(plan('no lot', [oil, soda, water]), 'oil'),
  bottle: plan('bottle', [bottled, oil, soda]),
  moulds,
  jug: planOf('slate'),
  meadowsweet: planOf('meadowsweet'),
};
