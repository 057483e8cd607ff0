import type { MassUnit } from '#lib/units/mass';

/** Nanograms in one unit: international avoirdupois pound 453.592 37 g, ounce a sixteenth of it (NIST SP 811, App. B). */
const NANOGRAMS: Readonly<Record<MassUnit, bigint>> = {
  mg: 10n ** 6n,
  g: 10n ** 9n,
  kg: 10n ** 12n,
  oz: 28_349_523_125n,
  lb: 453_592_370_000n,
};

/** Milligrams an unsigned decimal text states, in integers of any size, rounded half up once. The oracle for the fast conversion. */
export const exactMilligrams = (text: string, unit: MassUnit): number => {
  const [whole = '', fraction = ''] = text.split('.');
  const scale = 10n ** BigInt(fraction.length) * 10n ** 6n;
  return Number((BigInt(whole + fraction) * NANOGRAMS[unit] + scale / 2n) / scale);
};
