import { numberOf, type Figure } from './figure';
import type { Certified, Lot } from './lot';
import type { FatMaterial, Material } from './material';
import type { Reader } from './reader';
import type { Warning } from './warning';

/**
 * A certificate held against what its material's standard allows. Outside a standard's range it is refused until a person has confirmed that
 * very value, and is said from then on; outside another's range it is said.
 */
export const checkCertificate = (material: Material, lot: Lot | null, reader: Reader): readonly Warning[] => {
  const certificate = lot?.certificate ?? null;
  if (lot === null || certificate === null) return [];
  const path = `lots[${lot.id}].certificate`;
  const above = (one: Certified | undefined, what: string, most: number): void => {
    if (one === undefined) return;
    reader.above(one.value, `${path}.${what}`, most);
    if (one.u !== undefined) reader.within(one.u, `${path}.${what}.u`, 0, most);
  };
  above(certificate.density, 'density', 20);
  if (certificate.limit !== undefined) reader.percent(certificate.limit, `${path}.limit`, 'above-zero');
  if (certificate.vanillin !== undefined) reader.percent(certificate.vanillin, `${path}.vanillin`);
  for (const { name, percent } of certificate.allergens ?? []) reader.percent(percent, `${path}.allergens[${name}]`);
  if (material.kind === 'alkali') above(certificate.purity, 'purity', 100);
  if (material.kind === 'acid') above(certificate.strength, 'strength', 100);
  if (material.kind !== 'fat' && material.kind !== 'wax') return [];
  above(certificate.sv, 'sv', 1000);
  if (certificate.acidValue !== undefined) reader.within(certificate.acidValue.value, `${path}.acidValue`, 0, 1000);
  return inRange(material, lot, `${path}.sv`, reader);
};

const inRange = ({ name, sv: ours }: FatMaterial, lot: Lot, path: string, reader: Reader): readonly Warning[] => {
  const theirs = lot.certificate?.sv;
  const [value, low, high] = [numberOf(theirs?.value ?? ''), numberOf(ours.low ?? ''), numberOf(ours.high ?? '')];
  if (value === null || low === null || high === null) return [];
  const params = { material: name, value, low, high };
  const because = { text: ours.source, grade: ours.grade };
  const said = { entry: null, params, because, derivation: null };
  if (value >= low && value <= high) return [{ code: 'certificate-in-range', level: 'note', ...said }];
  if (ours.grade !== 'standard') return [{ code: 'certificate-unusual', level: 'mind', ...said }];
  if (isConfirmedOutside(ours, lot)) return [{ code: 'certificate-confirmed-outside', level: 'mind', ...said }];
  reader.note('certificate-outside', path, { value, low, high });
  return [];
};

/** Whether a person has confirmed the certificate's saponification value although the standard does not allow it. */
export const isConfirmedOutside = (ours: Figure, { certificate }: Lot): boolean => {
  const [value, confirmed] = [numberOf(certificate?.sv?.value ?? ''), numberOf(certificate?.svConfirmed ?? '')];
  const [low, high] = [numberOf(ours.low ?? ''), numberOf(ours.high ?? '')];
  if (value === null || low === null || high === null || ours.grade !== 'standard') return false;
  return value === confirmed && (value < low || value > high);
};
