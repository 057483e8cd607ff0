import { density, fat, HANDBOOKS, melting, most, range, recalled, type Fat } from './fat';

const PHARMACOPOEIA = { text: 'Ph. Eur./BP monograph White Beeswax', grade: 'B' } as const;
const PH_EUR_MEMORY = { text: 'Ph. Eur. monograph', grade: 'memory' } as const;

/** Waxes: they take alkali and give a fatty alcohol that stays in the bar, but no glycerol. */
export const WAX: readonly Fat[] = [
  fat(
    'jojoba',
    'Jojoba oil',
    { value: 92.2, reason: 'as the monograph states it; 92.6 from its mean molar mass of 606' },
    {
      kind: 'wax',
      sv: range(90, 95, HANDBOOKS),
      iodine: range(80, 85, HANDBOOKS),
      unsaponifiable: most(0.5, { text: 'alcohols of a C20–C24 wax ester, about half its mass', grade: 'computed' }),
      density: density(0.863, 25),
      melting: melting(7, 11),
      note: 'A liquid wax: one soap and one fatty alcohol, no glycerol.',
    },
  ),
  fat(
    'beeswax',
    'Beeswax',
    { value: 95, reason: 'middle of the range' },
    {
      kind: 'wax',
      sv: range(87, 104, PHARMACOPOEIA),
      acidValue: range(17, 24, PHARMACOPOEIA),
      unsaponifiable: most(0.55, { text: 'alcohols and hydrocarbons', grade: 'memory' }),
      density: density(0.826, 75),
      melting: melting(61, 65),
    },
  ),
  fat(
    'candelilla',
    'Candelilla wax',
    { value: 54, reason: 'middle of the range' },
    {
      kind: 'wax',
      sv: range(43, 65, HANDBOOKS),
      acidValue: range(12, 22, HANDBOOKS),
      unsaponifiable: most(0.7, HANDBOOKS),
      density: density(0.885, 80),
      melting: melting(68, 73),
    },
  ),
  fat(
    'carnauba',
    'Carnauba wax',
    { value: 86, reason: 'middle of the range' },
    {
      kind: 'wax',
      sv: range(78, 95, PH_EUR_MEMORY),
      acidValue: range(2, 7, PH_EUR_MEMORY),
      unsaponifiable: most(0.55, HANDBOOKS),
      density: density(0.85, 90),
      melting: melting(80, 88),
    },
  ),
  fat(
    'lanolin',
    'Lanolin (wool wax)',
    { value: 98, reason: 'middle of the range' },
    {
      kind: 'wax',
      sv: range(90, 105, PH_EUR_MEMORY),
      unsaponifiable: most(0.45, HANDBOOKS),
      density: density(0.93, 45),
      melting: melting(38, 44),
    },
  ),
];

/** Fatty acids sold as such: soap and water, no glycerol. The saponification value is the acid value. */
export const FREE_ACID: readonly Fat[] = [
  recalled(
    'stearic-acid',
    'Stearic acid, half palmitic',
    [206, 208, 212],
    { '16:0': 50, '18:0': 49 },
    {
      kind: 'free-acid',
      density: density(0.847, 70),
      melting: melting(53, 59),
    },
  ),
  recalled(
    'lauric-acid',
    'Lauric acid',
    [276, 280, 284],
    { '12:0': 99, '14:0': 1 },
    {
      kind: 'free-acid',
      density: density(0.868, 50),
      melting: melting(42, 45),
    },
  ),
  recalled(
    'oleic-acid',
    'Oleic acid',
    [195, 200, 206],
    { '16:0': 5, '18:0': 2, '18:1': 80, '18:2': 12 },
    {
      kind: 'free-acid',
      density: density(0.892, 20),
      iodine: range(85, 105, HANDBOOKS),
    },
  ),
];
