import { acidMolarMass, type FattyAcid } from '#lib/soap/fatty-acid';
import { molarMass, naohForKoh, type Element, type Formula } from '#lib/soap/molar-mass';
import { triglycerideMolarMass } from '#lib/soap/theory';
import { checks, type Check } from './check';

const OPEN = 'PubChem-derived table (H 1.00794, C 12.0107, O 15.9994)';
const PINNED = 'sum of IUPAC conventional atomic weights';
type Basis = typeof OPEN | typeof PINNED;

/** Two tables of atomic weights are in use; what rests on the other one may differ by 5e-5 of the value, what rests on ours by the last digit. */
const mass = (subject: string, published: number, basis: Basis, ours: () => number): Check => ({
  subject,
  quantity: 'molar mass',
  unit: 'g/mol',
  source: basis,
  grade: basis === OPEN ? 'B' : 'computed',
  published,
  ours,
  within: basis === OPEN ? 5e-5 * published : 6e-4,
  ...(basis === OPEN ? { because: 'two tables of atomic weights: compared at 5e-5' } : {}),
});

const ATOMS: readonly (readonly [Element, number, 'A' | 'B'])[] = [
  ['H', 1.008, 'B'],
  ['C', 12.011, 'B'],
  ['N', 14.007, 'B'],
  ['O', 15.999, 'B'],
  ['Na', 22.98976928, 'B'],
  ['K', 39.0983, 'A'],
];
const FORMULAS: readonly (readonly [string, Formula, number, Basis])[] = [
  ['NaOH', { Na: 1, O: 1, H: 1 }, 39.997109, OPEN],
  ['NaOH', { Na: 1, O: 1, H: 1 }, 39.99676928, PINNED],
  ['KOH', { K: 1, O: 1, H: 1 }, 56.10564, OPEN],
  ['KOH', { K: 1, O: 1, H: 1 }, 56.1053, PINNED],
  ['water', { H: 2, O: 1 }, 18.01528, OPEN],
  ['water', { H: 2, O: 1 }, 18.015, PINNED],
  ['glycerol', { C: 3, H: 8, O: 3 }, 92.09382, OPEN],
  ['glycerol', { C: 3, H: 8, O: 3 }, 92.094, PINNED],
  ['citric acid', { C: 6, H: 8, O: 7 }, 192.12352, OPEN],
  ['citric acid', { C: 6, H: 8, O: 7 }, 192.123, PINNED],
  ['lactic acid', { C: 3, H: 6, O: 3 }, 90.07794, OPEN],
  ['lactic acid', { C: 3, H: 6, O: 3 }, 90.078, PINNED],
  ['citric acid monohydrate', { C: 6, H: 10, O: 8 }, 210.138, PINNED],
];
const ACIDS: readonly (readonly [string, FattyAcid, number, Basis])[] = [
  ['caprylic acid C8:0', '8:0', 144.21144, OPEN],
  ['caprylic acid C8:0', '8:0', 144.214, PINNED],
  ['capric acid C10:0', '10:0', 172.2646, OPEN],
  ['capric acid C10:0', '10:0', 172.268, PINNED],
  ['lauric acid C12:0', '12:0', 200.31776, OPEN],
  ['lauric acid C12:0', '12:0', 200.322, PINNED],
  ['myristic acid C14:0', '14:0', 228.37092, OPEN],
  ['myristic acid C14:0', '14:0', 228.376, PINNED],
  ['palmitic acid C16:0', '16:0', 256.42408, OPEN],
  ['palmitic acid C16:0', '16:0', 256.43, PINNED],
  ['stearic acid C18:0', '18:0', 284.47724, OPEN],
  ['stearic acid C18:0', '18:0', 284.484, PINNED],
  ['oleic acid C18:1', '18:1', 282.46136, OPEN],
  ['oleic acid C18:1', '18:1', 282.468, PINNED],
  ['linoleic acid C18:2', '18:2', 280.44548, OPEN],
  ['linoleic acid C18:2', '18:2', 280.452, PINNED],
  ['linolenic acid C18:3', '18:3', 278.4296, OPEN],
  ['linolenic acid C18:3', '18:3', 278.436, PINNED],
  ['arachidic acid C20:0', '20:0', 312.5304, OPEN],
  ['arachidic acid C20:0', '20:0', 312.538, PINNED],
  ['erucic acid C22:1', '22:1', 338.56768, OPEN],
  ['erucic acid C22:1', '22:1', 338.576, PINNED],
  ['palmitoleic acid C16:1', '16:1', 254.414, PINNED],
  ['ricinoleic acid C18:1(OH)', '18:1-OH', 298.467, PINNED],
  ['gadoleic acid C20:1', '20:1', 310.522, PINNED],
  ['behenic acid C22:0', '22:0', 340.592, PINNED],
  ['lignoceric acid C24:0', '24:0', 368.646, PINNED],
];
const TRIGLYCERIDES: readonly (readonly [string, FattyAcid, number, Basis])[] = [
  ['trilaurin', '12:0', 639.00126, OPEN],
  ['trilaurin', '12:0', 639.015, PINNED],
  ['trimyristin', '14:0', 723.16074, OPEN],
  ['trimyristin', '14:0', 723.177, PINNED],
  ['tripalmitin', '16:0', 807.32022, OPEN],
  ['tripalmitin', '16:0', 807.339, PINNED],
  ['tristearin', '18:0', 891.4797, OPEN],
  ['tristearin', '18:0', 891.501, PINNED],
  ['triolein', '18:1', 885.43206, OPEN],
  ['triolein', '18:1', 885.453, PINNED],
  ['tricaprylin', '8:0', 470.691, PINNED],
  ['tricaprin', '10:0', 554.853, PINNED],
  ['tripalmitolein', '16:1', 801.291, PINNED],
  ['trilinolein', '18:2', 879.405, PINNED],
  ['trilinolenin', '18:3', 873.357, PINNED],
  ['triricinolein', '18:1-OH', 933.45, PINNED],
  ['triarachidin', '20:0', 975.663, PINNED],
  ['tribehenin', '22:0', 1059.825, PINNED],
];

export const MOLAR_MASS_CHECKS: readonly Check[] = [
  ...checks(ATOMS, ([element, published, grade]) => ({
    subject: element,
    quantity: 'atomic weight',
    unit: 'g/mol',
    source: 'IUPAC/CIAAW conventional and standard atomic weights',
    grade,
    published,
    ours: () => molarMass({ [element]: 1 }),
    within: 0,
  })),
  ...checks(FORMULAS, ([subject, formula, published, basis]) => mass(subject, published, basis, () => molarMass(formula))),
  ...checks(ACIDS, ([subject, acid, published, basis]) => mass(subject, published, basis, () => acidMolarMass(acid))),
  ...checks(TRIGLYCERIDES, ([subject, acid, published, basis]) =>
    mass(subject, published, basis, () => triglycerideMolarMass(acidMolarMass(acid))),
  ),
  {
    subject: 'NaOH for KOH',
    quantity: 'mass ratio',
    unit: 'g/g',
    source: '39.99676928 / 56.1053, IUPAC conventional weights',
    grade: 'computed',
    published: 0.7128875397,
    ours: () => naohForKoh(1),
    within: 1e-9,
  },
];
