import { fatById, usualIodine, usualProfile, type Fat } from '#lib/soap/fats/index';
import { theoreticalSv } from '#lib/soap/theory';
import { checks, type Check } from './check';

/**
 * What standards and reference texts allow of fats, and what usual fatty acids come to. Graded `memory` where the range was recalled and not
 * seen again: those figures are marked so in the catalogue too.
 */
const CODEX_210 = 'Codex CXS 210-1999 (as amended to 2022), Tables 1 and 2';
const CODEX_33 = 'Codex CXS 33-1981, appendix';
const MATERIALS = 'conservation-science materials database (secondary)';
const CANADA = 'Canada Food and Drug Regulations, C.R.C. c. 870, B.09.013 (version 2022-07-20 to 2024-03-06)';
const CODEX_211 = 'Codex CXS 211-1999';
const MALAYSIA = 'Malaysia Food Regulations 1985, reg. 181';
const CODEX_325R = 'Codex regional standard CXS 325R-2017, Table 2 (as reproduced in a national adoption)';
const CFR = '21 CFR 184.1702(b)';
const HANDBOOK = 'handbook; only trade specifications (32-42) were seen';
const MERCK = 'Merck Index monograph text';
const PH_EUR = 'Ph. Eur./BP monograph White Beeswax';
const CODEX_86 = 'Codex CXS 86-1981, 2.1';
const BP = 'BP 2025 Virgin Castor Oil';

type Limits = 'sv' | 'iodine' | 'acidValue';
type Grade = Check['grade'];

const RANGES: readonly (readonly [string, Limits, number, number, string, Grade])[] = [
  ['coconut', 'sv', 248, 265, CODEX_210, 'B'],
  ['coconut', 'iodine', 6.3, 10.6, CODEX_210, 'B'],
  ['palm', 'sv', 190, 209, CODEX_210, 'B'],
  ['palm', 'iodine', 50, 55, CODEX_210, 'B'],
  ['palm-kernel', 'sv', 230, 254, CODEX_210, 'memory'],
  ['palm-kernel', 'iodine', 14.1, 21, CODEX_210, 'memory'],
  ['babassu', 'sv', 245, 256, CODEX_210, 'B'],
  ['babassu', 'iodine', 10, 18, CODEX_210, 'B'],
  ['olive', 'sv', 184, 196, CODEX_33, 'memory'],
  ['olive', 'iodine', 75, 94, CODEX_33, 'memory'],
  ['sunflower', 'sv', 187, 194, CODEX_210, 'B'],
  ['sunflower', 'iodine', 118, 141, CODEX_210, 'memory'],
  ['sunflower-high-oleic', 'sv', 182, 194, CODEX_210, 'B'],
  ['sunflower-high-oleic', 'iodine', 78, 90, CODEX_210, 'B'],
  ['safflower-high-oleic', 'sv', 186, 194, CODEX_210, 'B'],
  ['safflower-high-oleic', 'iodine', 80, 100, CODEX_210, 'B'],
  ['soya', 'sv', 189, 195, CODEX_210, 'B'],
  ['soya', 'iodine', 124, 139, CODEX_210, 'B'],
  ['rapeseed', 'sv', 182, 193, CODEX_210, 'B'],
  ['rapeseed', 'iodine', 105, 126, CODEX_210, 'B'],
  ['rice-bran', 'sv', 180, 199, CODEX_210, 'B'],
  ['rice-bran', 'iodine', 90, 115, CODEX_210, 'B'],
  ['sesame', 'sv', 186, 195, CODEX_210, 'B'],
  ['sesame', 'iodine', 104, 120, CODEX_210, 'B'],
  ['maize', 'sv', 187, 195, CODEX_210, 'B'],
  ['maize', 'iodine', 103, 135, CODEX_210, 'B'],
  ['cottonseed', 'sv', 189, 198, CODEX_210, 'B'],
  ['cottonseed', 'iodine', 100, 123, CODEX_210, 'B'],
  ['linseed', 'sv', 185, 197, CODEX_210, 'B'],
  ['linseed', 'iodine', 170, 211, CODEX_210, 'B'],
  ['safflower', 'sv', 186, 198, CODEX_210, 'memory'],
  ['safflower', 'iodine', 136, 148, CODEX_210, 'memory'],
  ['grapeseed', 'sv', 188, 194, CODEX_210, 'memory'],
  ['grapeseed', 'iodine', 128, 150, CODEX_210, 'memory'],
  ['peanut', 'sv', 187, 196, CODEX_210, 'memory'],
  ['peanut', 'iodine', 86, 107, CODEX_210, 'memory'],
  ['almond', 'sv', 183, 207, CODEX_210, 'memory'],
  ['almond', 'iodine', 85, 109, CODEX_210, 'memory'],
  ['avocado', 'sv', 177, 198, MATERIALS, 'C'],
  ['avocado', 'iodine', 71, 95, MATERIALS, 'C'],
  ['lard', 'sv', 192, 203, CANADA, 'A'],
  ['lard', 'iodine', 45, 70, CANADA, 'A'],
  ['tallow', 'sv', 190, 202, CODEX_211, 'memory'],
  ['tallow', 'iodine', 40, 53, CODEX_211, 'memory'],
  ['suet', 'sv', 190, 200, MALAYSIA, 'A'],
  ['suet', 'iodine', 32, 47, MALAYSIA, 'A'],
  ['shea', 'sv', 160, 195, CODEX_325R, 'A'],
  ['shea', 'iodine', 30, 75, CODEX_325R, 'A'],
  ['shea-refined', 'sv', 185, 195, CFR, 'A'],
  ['shea-refined', 'iodine', 28, 43, CFR, 'A'],
  ['cocoa', 'sv', 188, 200, HANDBOOK, 'memory'],
  ['cocoa', 'iodine', 32, 42, HANDBOOK, 'memory'],
  ['castor', 'sv', 176, 187, MERCK, 'B'],
  ['castor', 'iodine', 81, 91, MERCK, 'B'],
  ['beeswax', 'sv', 87, 104, PH_EUR, 'B'],
  ['beeswax', 'acidValue', 17, 24, PH_EUR, 'B'],
];

const QUANTITY: Readonly<Record<Limits, readonly [quantity: string, unit: string]>> = {
  sv: ['saponification value', 'mg KOH/g'],
  iodine: ['iodine value', 'g I₂/100 g'],
  acidValue: ['acid value', 'mg KOH/g'],
};

const end = (id: string, what: Limits, which: 'low' | 'high'): number => fatById(id)[what]?.[which] ?? Number.NaN;

const ranges = RANGES.flatMap(([id, what, low, high, source, grade]) => {
  const [quantity, unit] = QUANTITY[what];
  return checks([['low', low] as const, ['high', high] as const], ([which, published]) => ({
    subject: id,
    quantity: `${quantity}, ${which}`,
    unit,
    source,
    grade,
    published,
    ours: () => end(id, what, which),
    within: 0,
  }));
});

/** The value a formula computes with must lie where its standard allows. */
const working = checks(
  RANGES.filter(([, what]) => what === 'sv'),
  ([id, , low, high, source, grade]) => ({
    subject: id,
    quantity: 'working saponification value inside the range',
    unit: 'mg KOH/g',
    source,
    grade,
    published: [low, high] as const,
    ours: () => fatById(id).working.value,
    within: 0,
  }),
);

const UNSAPONIFIABLE: readonly (readonly [string, number, string, Grade])[] = [
  ['coconut', 15, CODEX_210, 'B'],
  ['palm', 12, CODEX_210, 'B'],
  ['palm-kernel', 10, CODEX_210, 'memory'],
  ['babassu', 12, CODEX_210, 'B'],
  ['olive', 15, CODEX_33, 'memory'],
  ['sunflower', 15, CODEX_210, 'memory'],
  ['sunflower-high-oleic', 15, CODEX_210, 'B'],
  ['safflower-high-oleic', 10, CODEX_210, 'B'],
  ['soya', 15, CODEX_210, 'B'],
  ['rapeseed', 20, CODEX_210, 'B'],
  ['rice-bran', 65, CODEX_210, 'B'],
  ['sesame', 20, CODEX_210, 'B'],
  ['maize', 28, CODEX_210, 'B'],
  ['cottonseed', 15, CODEX_210, 'B'],
  ['linseed', 20, CODEX_210, 'B'],
  ['safflower', 15, CODEX_210, 'memory'],
  ['grapeseed', 20, CODEX_210, 'memory'],
  ['peanut', 10, CODEX_210, 'memory'],
  ['almond', 20, CODEX_210, 'memory'],
  ['lard', 12, CANADA, 'A'],
  ['tallow', 12, CODEX_211, 'memory'],
  ['suet', 10, MALAYSIA, 'A'],
  ['shea', 190, CODEX_325R, 'A'],
  ['shea-refined', 15, CFR, 'A'],
  ['cocoa', 7, CODEX_86, 'B'],
  ['castor', 8, BP, 'B'],
];

const unsaponifiable = checks(UNSAPONIFIABLE, ([id, published, source, grade]) => ({
  subject: id,
  quantity: 'unsaponifiable matter, most',
  unit: 'g/kg',
  source,
  grade,
  published,
  ours: () => 1000 * (fatById(id).unsaponifiable?.value ?? Number.NaN),
  within: 1e-9,
}));

const MIDDLES: readonly (readonly [string, 'sv' | 'iodine', number])[] = [
  ['coconut', 'sv', 254.4],
  ['coconut', 'iodine', 9.5],
  ['palm', 'sv', 198.7],
  ['palm', 'iodine', 52.9],
  ['palm-kernel', 'sv', 246.3],
  ['palm-kernel', 'iodine', 17.1],
  ['babassu', 'sv', 244.4],
  ['babassu', 'iodine', 18.1],
  ['olive', 'sv', 193.1],
  ['olive', 'iodine', 82.1],
  ['sunflower-high-oleic', 'sv', 190.3],
  ['sunflower-high-oleic', 'iodine', 85.9],
  ['safflower-high-oleic', 'sv', 191],
  ['safflower-high-oleic', 'iodine', 93],
  ['soya', 'sv', 192.6],
  ['soya', 'iodine', 132.6],
  ['rapeseed', 'sv', 190.5],
  ['rapeseed', 'iodine', 113.9],
  ['rice-bran', 'sv', 193.8],
  ['rice-bran', 'iodine', 96.4],
  ['sesame', 'sv', 192.1],
  ['sesame', 'iodine', 109.6],
  ['maize', 'sv', 193],
  ['maize', 'iodine', 118.3],
  ['cottonseed', 'sv', 195.6],
  ['cottonseed', 'iodine', 108],
  ['linseed', 'sv', 192.7],
  ['linseed', 'iodine', 179.4],
];

const theoretical = (fat: Fat): number => {
  const profile = usualProfile(fat);
  return profile === null ? Number.NaN : theoreticalSv(profile);
};

const byAcids = (id: string, what: 'sv' | 'iodine'): number =>
  what === 'sv' ? theoretical(fatById(id)) : (usualIodine(fatById(id)) ?? Number.NaN);

const middles = checks(MIDDLES, ([id, what, published]) => ({
  subject: id,
  quantity: `${QUANTITY[what][0]} from the middles of its fatty-acid ranges`,
  unit: QUANTITY[what][1],
  source: what === 'sv' ? 'AOCS Cd 3a-94 on the ranges of its standard' : 'AOCS Cd 1c-85 on the ranges of its standard',
  grade: 'computed' as const,
  published,
  ours: () => byAcids(id, what),
  within: what === 'sv' ? 0.06 : 0.25,
  because: 'printed to a tenth; acids of odd or rare chains are left out there, whose iodine is counted here',
}));

/** Other texts on the same oil: ours needs to lie in theirs, not to be the same. */
const OTHERS: readonly (readonly [string, 'sv' | 'iodine', number, number, string, Grade])[] = [
  ['rapeseed', 'sv', 178, 193, 'USP32-NF27 monograph Canola Oil <401>', 'B'],
  ['rapeseed', 'iodine', 110, 126, 'USP32-NF27 monograph Canola Oil <401>', 'B'],
  ['sunflower', 'sv', 188, 194, 'Merck Index monograph text', 'B'],
  ['sunflower', 'iodine', 125, 136, 'Merck Index monograph text', 'B'],
  ['safflower', 'sv', 189, 195, 'AGMARK grade designation, safflower seed oil', 'B'],
  ['safflower', 'iodine', 138, 148, 'AGMARK grade designation, safflower seed oil', 'B'],
  ['peanut', 'sv', 185, 195, 'pharmacognosy teaching article', 'C'],
  ['peanut', 'iodine', 84, 100, 'pharmacognosy teaching article', 'C'],
  ['almond', 'sv', 190, 200, 'USP/NF Almond Oil (as transcribed)', 'C'],
  ['palm-kernel', 'iodine', 16.5, 18.75, 'J. Oil Palm Research 25(2), 2013, 245-252, abstract', 'B'],
  ['lard', 'sv', 192, 203, 'Codex CXS 211-1999', 'memory'],
  ['lard', 'iodine', 55, 65, 'Codex CXS 211-1999', 'memory'],
];

const others = checks(OTHERS, ([id, what, low, high, source, grade]) => ({
  subject: id,
  quantity:
    what === 'sv' ? 'working saponification value in another text’s range' : 'iodine value by its usual acids in another text’s range',
  unit: QUANTITY[what][1],
  source,
  grade,
  published: [low, high] as const,
  ours: () => (what === 'sv' ? fatById(id).working.value : byAcids(id, 'iodine')),
  within: 0,
}));

const jojoba = checks(
  [
    ['saponification value', 92.2, 'Merck Index monograph text', 0.05],
    ['saponification value from a mean molar mass of 606', 92.58, '56.1053 × 1000 / 606', 0.5],
  ] as const,
  ([quantity, published, source, within]) => ({
    subject: 'jojoba',
    quantity,
    unit: 'mg KOH/g',
    source,
    grade: source.startsWith('Merck') ? 'B' : 'computed',
    published,
    ours: () => fatById('jojoba').working.value,
    within,
  }),
);

export const FAT_CHECKS: readonly Check[] = [...ranges, ...working, ...unsaponifiable, ...middles, ...others, ...jojoba];
