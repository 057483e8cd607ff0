import { acidDemand, type AcidId } from '#lib/soap/acid';
import type { Hydroxide } from '#lib/soap/alkali';
import type { FattyAcid } from '#lib/soap/fatty-acid';
import { glycerolFrom, react } from '#lib/soap/reaction';
import { alkaliFor } from '#lib/soap/superfat';
import { iodineValue, naohPerGram, theoreticalSv, type Bound } from '#lib/soap/theory';
import { checks, type Check } from './check';

const SV: readonly (readonly [string, FattyAcid, number])[] = [
  ['tricaprylin', '8:0', 357.59],
  ['tricaprin', '10:0', 303.35],
  ['trilaurin', '12:0', 263.4],
  ['tripalmitin', '16:0', 208.48],
  ['tripalmitolein', '16:1', 210.06],
  ['tristearin', '18:0', 188.8],
  ['triolein', '18:1', 190.09],
  ['trilinolein', '18:2', 191.4],
  ['trilinolenin', '18:3', 192.72],
  ['triarachidin', '20:0', 172.51],
];
const NAOH: readonly (readonly [string, FattyAcid, number])[] = [
  ['tricaprylin', '8:0', 0.25492],
  ['tricaprin', '10:0', 0.21626],
  ['trilaurin', '12:0', 0.18777],
  ['trimyristin', '14:0', 0.16592],
  ['tripalmitin', '16:0', 0.14862],
  ['tripalmitolein', '16:1', 0.14975],
  ['tristearin', '18:0', 0.13459],
  ['triolein', '18:1', 0.13551],
  ['trilinolein', '18:2', 0.13644],
  ['trilinolenin', '18:3', 0.13739],
  ['triricinolein', '18:1-OH', 0.12854],
  ['triarachidin', '20:0', 0.12298],
  ['tribehenin', '22:0', 0.11322],
];
const AOCS: readonly (readonly [FattyAcid, Bound, number])[] = [
  ['16:1', 'triglyceride', 0.95],
  ['16:1', 'free-acid', 0.9976],
  ['18:1', 'triglyceride', 0.86],
  ['18:1', 'free-acid', 0.8986],
  ['18:2', 'triglyceride', 1.732],
  ['18:2', 'free-acid', 1.81],
  ['18:3', 'triglyceride', 2.616],
  ['18:3', 'free-acid', 2.735],
  ['20:1', 'triglyceride', 0.785],
  ['20:1', 'free-acid', 0.8175],
  ['22:1', 'triglyceride', 0.723],
  ['22:1', 'free-acid', 0.7497],
];
const ACIDS: readonly (readonly [AcidId, Hydroxide, number])[] = [
  ['citric-anhydrous', 'NaOH', 0.6245494],
  ['citric-anhydrous', 'KOH', 0.8760841],
  ['citric-monohydrate', 'NaOH', 0.5710072],
  ['citric-monohydrate', 'KOH', 0.8009779],
  ['lactic', 'NaOH', 0.4440237],
  ['lactic', 'KOH', 0.6228524],
];

/** Kilomoles of NaOH and of free acid of the first exercise, as its data state them. */
const exerciseA = (): number => {
  const soda = (120.064 * 0.15) / 40;
  const freeAcid = (13.44 * 7) / 1000 / 56;
  return glycerolFrom(soda - freeAcid);
};

/** Kilograms of tristearin for 720 kg of sodium stearate. */
const exerciseC = (): number => {
  const fat = { mass: 1, sv: theoreticalSv({ '18:0': 100 }) };
  const alkalis = alkaliFor(0, [fat], [], { naohShare: 1, naohPurity: 1, kohPurity: 1 });
  return 720 / react({ fats: [fat], alkalis, acids: [], water: 0, inert: 0 }).soap;
};

export const SAPONIFICATION_CHECKS: readonly Check[] = [
  ...checks(SV, ([subject, acid, published]) => ({
    subject,
    quantity: 'theoretical saponification value',
    unit: 'mg KOH/g',
    source: 'AOCS Cd 3a-94: 3 M(KOH) / M(triglyceride), conventional weights',
    grade: 'computed' as const,
    published,
    ours: () => theoreticalSv({ [acid]: 100 }),
    within: 0.006,
  })),
  ...checks(NAOH, ([subject, acid, published]) => ({
    subject,
    quantity: 'NaOH for full saponification',
    unit: 'g/g',
    source: '3 M(NaOH) / M(triglyceride), conventional weights',
    grade: 'computed' as const,
    published,
    ours: () => naohPerGram(theoreticalSv({ [acid]: 100 })),
    within: 6e-6,
  })),
  ...checks(AOCS, ([acid, bound, published]) => ({
    subject: `C${acid}`,
    quantity: `iodine value per percent, ${bound === 'triglyceride' ? 'triglycerides' : 'free fatty acids'}`,
    unit: 'g I₂/100 g',
    source: 'AOCS Cd 1c-85 (reapproved 2009), calculations',
    grade: 'B' as const,
    published,
    ours: () => iodineValue({ [acid]: 100 }, bound) / 100,
    within: 0,
  })),
  ...checks(ACIDS, ([acid, alkali, published]) => ({
    subject: acid,
    quantity: `${alkali} to neutralise`,
    unit: 'g/g',
    source: 'stoichiometry, conventional weights',
    grade: 'computed' as const,
    published,
    ours: () => acidDemand(acid, alkali),
    within: 6e-8,
  })),
  {
    subject: 'school exercise: fat of acid value 7 and 15 % NaOH',
    quantity: 'glycerol',
    unit: 'kg',
    source: 'luyentap365.com, exercise with answer',
    grade: 'C',
    published: 13.75584,
    ours: exerciseA,
    within: 0.015,
    because: 'its molar masses are rounded to 40, 56 and 92',
  },
  {
    subject: 'school exercise: 1 t of soap of 72 % sodium stearate',
    quantity: 'tristearin',
    unit: 'kg',
    source: 'voh.com.vn, chemistry of grade 12, exercise with answer',
    grade: 'C',
    published: 698.05,
    ours: exerciseC,
    within: 0.35,
    because: 'its molar masses are rounded to 890 and 306',
  },
];
