import { joining, line, vessel, type SamplePlan } from './make';

/**
 * A small one to practise on. Worked by hand with working SVs (mg KOH/g): coconut 257, olive 190, high-oleic sunflower 188, and
 * NaOH = KOH × 0.71289; replaced by computed plans. Demand 74.75 g NaOH; with 5 % superfat 71.01 g pure; liquid for a lye of one
 * third. Tolerances and uppers by the rules of the larger plan.
 */
export const meadowsweet: SamplePlan = {
  id: 'meadowsweet',
  plan: {
    formula: { id: 'meadowsweet', name: 'Meadowsweet', version: 1 },
    vessels: [
      vessel('oils-pot', 'oils pot', 'oils', 'stainless', 412.6, 1_500),
      vessel('lye-jug', 'lye jug', 'liquid', 'plastic-pp', 141.8, 500),
      vessel('soda-cup', 'soda cup', 'hydroxide', 'plastic-hdpe', 44.7, 250),
      vessel('scent-cup', 'scent cup', 'aside', 'glass', 71.5, 60),
    ],
    lines: [
      line('coconut', {
        name: 'Coconut oil',
        class: 'hard-oil',
        phase: 'oils',
        target: 150,
        tolerance: 1.2,
        upper: 154,
        vessel: 'oils-pot',
        perGram: 233,
      }),
      line('olive', {
        name: 'Olive oil',
        class: 'liquid-oil',
        phase: 'oils',
        target: 250,
        tolerance: 1.7,
        upper: 255.5,
        vessel: 'oils-pot',
        perGram: 172,
      }),
      line('sunflower', {
        name: 'Sunflower oil, high oleic',
        class: 'liquid-oil',
        phase: 'oils',
        target: 100,
        tolerance: 1,
        upper: 105.5,
        vessel: 'oils-pot',
        perGram: 170,
      }),
      line('meadowsweet-scent', {
        name: 'Meadowsweet fragrance oil',
        class: 'fragrance',
        phase: 'aside',
        target: 12,
        tolerance: 0.15,
        upper: null,
        vessel: 'scent-cup',
        scale: 'fine',
        perGram: 0,
      }),
      line('water', {
        name: 'Distilled water',
        class: 'liquid',
        phase: 'liquid',
        target: 142,
        tolerance: 1.4,
        upper: 150.5,
        vessel: 'lye-jug',
        perGram: 0,
      }),
      line('soda', {
        name: 'Sodium hydroxide',
        class: 'hydroxide',
        phase: 'hydroxide',
        target: 71,
        tolerance: 0.2,
        upper: 71.7,
        vessel: 'soda-cup',
        perGram: -1_338,
      }),
    ],
    joining: joining(null),
  },
  lots: {
    coconut: [{ id: 'lot-coconut-07', mark: 'CO 26-07' }],
    olive: [{ id: 'lot-olive-12', mark: 'OL 26-01' }],
    sunflower: [{ id: 'lot-sunflower-03', mark: 'SF 26-03' }],
    'meadowsweet-scent': [{ id: 'lot-meadowsweet-02', mark: 'MS 26-02' }],
    water: [{ id: 'lot-water-31', mark: 'DW 26-31' }],
    soda: [{ id: 'lot-soda-06', mark: 'SH 26-06' }],
  },
};
