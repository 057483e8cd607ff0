import { isConfirmedOutside } from './certificate';
import type { Certificate, Certified, Lot } from './lot';
import { decimal, numberOf, type Figure } from './figure';
import type { Material } from './material';

const CERTIFIED_SOURCE = (lot: Lot, { date, supplier }: Certificate): string => `${supplier}, certificate of ${date}, lot ${lot.mark}`;

/** Two standard uncertainties either side: what a certificate's own figure leaves open. */
const ends = ({ value, u }: Certified): Pick<Figure, 'low' | 'high'> => {
  const [middle, spread] = [numberOf(value), numberOf(u ?? '')];
  return middle === null || spread === null ? {} : { low: decimal(middle - 2 * spread), high: decimal(middle + 2 * spread) };
};

/** Kept although its standard does not allow it: wherever the figure goes, that goes with it. */
const confirmed = (ours: Figure, theirs: Figure, lot: Lot): Figure =>
  isConfirmedOutside(ours, lot) ? { ...theirs, source: `${theirs.source}, confirmed outside the standard’s range` } : theirs;

/**
 * The material as this lot is: what its certificate states goes before the catalogue, marked so; all else stays. Without a certificate
 * the material itself.
 */
export const materialOfLot = (material: Material, lot: Lot | null): Material => {
  const certificate = lot?.certificate ?? null;
  if (lot === null || certificate === null) return material;
  const source = CERTIFIED_SOURCE(lot, certificate);
  const over = <T extends Figure | null>(before: T, now: Certified | undefined, unit: string): T | Figure =>
    now === undefined ? before : { value: now.value, ...ends(now), unit, source, grade: 'certificate' };
  switch (material.kind) {
    case 'fat':
    case 'wax':
      return {
        ...material,
        sv: confirmed(material.sv, over(material.sv, certificate.sv, 'mg KOH/g'), lot),
        acidValue: over(material.acidValue, certificate.acidValue, 'mg KOH/g'),
        density:
          certificate.density === undefined
            ? material.density
            : { value: certificate.density.value, unit: 'g/cm³', source, grade: 'certificate', celsius: '20' },
      };
    case 'alkali':
      return { ...material, purity: over(material.purity, certificate.purity, '%') };
    case 'acid':
      return { ...material, strength: over(material.strength, certificate.strength, '%') };
    case 'fragrance':
      return {
        ...material,
        density: over(material.density, certificate.density, 'g/cm³'),
        vanillin:
          certificate.vanillin === undefined ? material.vanillin : { value: certificate.vanillin, unit: '%', source, grade: 'certificate' },
      };
    case 'additive':
    case 'colourant':
      return { ...material, density: over(material.density, certificate.density, 'g/cm³') };
    case 'liquid':
      break;
  }
  return material;
};
