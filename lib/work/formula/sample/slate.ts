import { joining, line, vessel, type SamplePlan } from './make';

/**
 * A large batch: its pot stands beside the scale, and a jug carries the oils over, the olive oil in two weighings because it is
 * more than the jug and the scale can take. Worked by hand with working SVs (mg KOH/g): coconut 257, olive 190, castor 181, and
 * NaOH = KOH × 0.71289; replaced by computed plans. Demand 1,229.2 g NaOH; with 5 % superfat 1,167.7 g pure; liquid for a lye of one
 * third. Tolerances and uppers by the rules of the smaller plan.
 */
export const slate: SamplePlan = {
  id: 'slate',
  plan: {
    formula: { id: 'slate', name: 'Slate', version: 2 },
    vessels: [
      vessel('oils-jug', 'oils jug', 'oils', 'plastic-pp', 318.5, 5_000),
      vessel('batch-pot', 'batch pot', 'oils', 'stainless', null, 20_000),
      vessel('lye-jug', 'lye jug', 'liquid', 'plastic-hdpe', 402.2, 5_000),
      vessel('soda-pail', 'soda pail', 'hydroxide', 'plastic-hdpe', 236.8, 3_000),
      vessel('char-cup', 'charcoal cup', 'aside', 'plastic-pp', 31.6, 300),
    ],
    lines: [
      line('coconut', {
        name: 'Coconut oil',
        class: 'hard-oil',
        phase: 'oils',
        target: 2_400,
        tolerance: 20,
        upper: 2_470,
        vessel: 'oils-jug',
        into: 'batch-pot',
        perGram: 14,
      }),
      line('olive', {
        name: 'Olive oil',
        class: 'liquid-oil',
        phase: 'oils',
        target: 5_400,
        tolerance: 25,
        upper: 5_495,
        vessel: 'oils-jug',
        into: 'batch-pot',
        perGram: 10,
      }),
      line('castor', {
        name: 'Castor oil',
        class: 'liquid-oil',
        phase: 'oils',
        target: 450,
        tolerance: 4.5,
        upper: 550,
        vessel: 'oils-jug',
        into: 'batch-pot',
        perGram: 10,
      }),
      line('charcoal', {
        name: 'Charcoal powder',
        class: 'colourant',
        phase: 'aside',
        target: 40,
        tolerance: 0.5,
        upper: 50,
        vessel: 'char-cup',
        scale: 'fine',
        perGram: 0,
      }),
      line('water', {
        name: 'Distilled water',
        class: 'liquid',
        phase: 'liquid',
        target: 2_335,
        tolerance: 20,
        upper: 2_480,
        vessel: 'lye-jug',
        perGram: 0,
      }),
      line('soda', {
        name: 'Sodium hydroxide',
        class: 'hydroxide',
        phase: 'hydroxide',
        target: 1_167.5,
        tolerance: 3.5,
        upper: 1_179.5,
        vessel: 'soda-pail',
        perGram: -81,
      }),
    ],
    joining: joining(null, 'advise'),
  },
  lots: {
    coconut: [{ id: 'lot-coconut-09', mark: 'CO 26-09' }],
    olive: [
      { id: 'lot-olive-11', mark: 'OL 25-11' },
      { id: 'lot-olive-12', mark: 'OL 26-01' },
    ],
    castor: [{ id: 'lot-castor-01', mark: 'CA 26-01' }],
    charcoal: [{ id: 'lot-charcoal-02', mark: 'CH 25-02' }],
    water: [{ id: 'lot-water-31', mark: 'DW 26-31' }],
    soda: [{ id: 'lot-soda-06', mark: 'SH 26-06' }],
  },
};
