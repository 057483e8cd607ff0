import { numberOf, type Figure } from './figure';
import type { Certified, Lot } from './lot';
import type { Material } from './material';
import type { Reader } from './reader';
import type { Warning } from './warning';

/** A certificate held against what its material's standard allows: outside a standard's range is refused, outside another's is said. */
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
  return inRange(material.sv, certificate.sv, material.name, `${path}.sv`, reader);
};

const inRange = (ours: Figure, theirs: Certified | undefined, name: string, path: string, reader: Reader): readonly Warning[] => {
  const [value, low, high] = [numberOf(theirs?.value ?? ''), numberOf(ours.low ?? ''), numberOf(ours.high ?? '')];
  if (value === null || low === null || high === null) return [];
  const params = { material: name, value, low, high };
  const because = { text: ours.source, grade: ours.grade };
  const said = { entry: null, params, because, derivation: null };
  if (value >= low && value <= high) return [{ code: 'certificate-in-range', level: 'note', ...said }];
  if (ours.grade !== 'standard') return [{ code: 'certificate-unusual', level: 'mind', ...said }];
  reader.note('certificate-outside', path, { value, low, high });
  return [];
};
