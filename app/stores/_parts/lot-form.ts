import { checkLot } from '#lib/work/formula/index';
import type { Certificate, Certified, FileRef, Lot, Material } from '#lib/work/formula/index';
import type { Reading } from '../../_ui/kept/kind';
import { at, gather } from '../../_ui/kept/typed';
import type { Gather, Typed } from '../../_ui/kept/typed';
import { problemText } from '../../_ui/problem-messages';
import { messages } from '../messages';
import { percentLines, linesText } from './percent-lines';
import { readReceived, typedReceived } from './received-form';
import type { Known } from './stores';

/** Figures with an uncertainty of their own. */
export type CertifiedField = 'sv' | 'acidValue' | 'purity' | 'strength' | 'density';
export type PlainField = 'limit' | 'vanillin';

/** What a certificate can say of a kind of material; nothing else is asked for. */
export const FIELDS_OF: Readonly<
  Record<Material['kind'], { readonly certified: readonly CertifiedField[]; readonly plain: readonly PlainField[] }>
> = {
  fat: { certified: ['sv', 'acidValue', 'density'], plain: [] },
  wax: { certified: ['sv', 'acidValue', 'density'], plain: [] },
  alkali: { certified: ['purity'], plain: [] },
  liquid: { certified: [], plain: [] },
  acid: { certified: ['strength'], plain: [] },
  additive: { certified: ['density'], plain: [] },
  fragrance: { certified: ['density'], plain: ['limit', 'vanillin'] },
  colourant: { certified: ['density'], plain: [] },
};
/** What a figure can be at most: what reads as two numbers is the one below it. */
const MOST: Readonly<Record<CertifiedField, number>> = { sv: 1000, acidValue: 1000, purity: 100, strength: 100, density: 20 };

/** Where a field of the certificate stands in a lot. */
export const path = (field: string): string => `certificate.${field}`;

export const filesOf = (typed: Typed): readonly FileRef[] => JSON.parse(typed['files'] ?? '[]') as readonly FileRef[];
export const filesText = (files: readonly FileRef[]): string => JSON.stringify(files);

export const typedLot = (lot: Lot | null): Typed => {
  const certificate = lot?.certificate ?? null;
  const { sv, acidValue, purity, strength, density } = certificate ?? {};
  const figures = Object.entries({ sv, acidValue, purity, strength, density }).flatMap(([field, one]) => [
    [path(field), one?.value ?? ''] as const,
    [path(`${field}.u`), one?.u ?? ''] as const,
  ]);
  return {
    mark: lot?.mark ?? '',
    material: lot?.material ?? '',
    [path('date')]: certificate?.date ?? '',
    [path('supplier')]: certificate?.supplier ?? '',
    ...Object.fromEntries(figures),
    [path('svConfirmed')]: certificate?.svConfirmed ?? '',
    [path('limit')]: certificate?.limit ?? '',
    [path('vanillin')]: certificate?.vanillin ?? '',
    [path('allergens')]: linesText(certificate?.allergens ?? []),
    files: filesText(lot?.files ?? []),
    ...typedReceived(lot),
    // Not a field: which lot the form is of.
    '@id': lot?.id ?? '',
  };
};

/** The certificate's saponification value where its standard does not allow it, confirmed or not; `null` where nothing is to be confirmed. */
export const outsideStandard = (typed: Typed, known: Known): string | null => {
  const { svConfirmed: _, ...certificate } = certificateOf(typed, gather(typed), 'fat') ?? { date: '', supplier: '' };
  const lot: Lot = { id: 'lot', mark: 'lot', material: at(typed, 'material'), certificate, files: [] };
  const outside = checkLot(lot, known.materials).problems.some(({ code }) => code === 'certificate-outside');
  return outside ? (certificate.sv?.value ?? null) : null;
};

/** The lot a form says, with what the core's own check finds in it. */
export const readLot = (id: string, typed: Typed, known: Known): Reading => {
  const read = gather(typed);
  const material = at(typed, 'material');
  if (material === '') read.note('material', messages.choose);
  const kind = known.materials.find((one) => one.id === material)?.kind ?? null;
  const lot: Lot = {
    id,
    mark: read.name('mark'),
    material,
    certificate: certificateOf(typed, read, kind),
    files: filesOf(typed),
    ...readReceived(typed, read),
  };
  const minds: Record<string, string> = {};
  if (kind === null) return { document: lot, errors: read.errors, minds };
  const { problems, warnings } = checkLot(lot, known.materials);
  for (const one of problems) {
    const key = one.path.replace(/^certificate\.allergens.*$/, path('allergens'));
    if (one.code !== 'certificate-outside') {
      read.note(key, problemText(one));
      continue;
    }
    // Nothing outside its standard is kept before somebody has looked again.
    minds[key] = problemText(one);
    read.note(path('svConfirmed'), messages.lots.confirmFirst);
  }
  for (const { code, params } of warnings) {
    if (code === 'certificate-unusual') minds[path('sv')] = messages.lots.unusual(params['low'], params['high']);
    if (code === 'certificate-confirmed-outside') minds[path('sv')] = messages.lots.confirmed(params['low'], params['high']);
  }
  return { document: lot, errors: read.errors, minds };
};

const certificateOf = (typed: Typed, read: Gather, kind: Material['kind'] | null): Certificate | null => {
  const { certified, plain } = kind === null ? { certified: [], plain: [] } : FIELDS_OF[kind];
  const one = (field: CertifiedField): Readonly<Record<string, Certified>> => {
    const value = read.number(path(field), { to: MOST[field] });
    const u = read.number(path(`${field}.u`), { from: 0, to: MOST[field] });
    if (value === null && u !== null) read.must(path(field));
    return value === null ? {} : { [field]: u === null ? { value } : { value, u } };
  };
  const figures = Object.assign({}, ...certified.map(one)) as Partial<Record<CertifiedField, Certified>>;
  const decimals = Object.assign(
    {},
    ...plain.map((field) => {
      const value = read.number(path(field), { to: 100 });
      return value === null ? {} : { [field]: value };
    }),
  ) as Partial<Record<PlainField, string>>;
  const allergens = kind === 'fragrance' ? percentLines(at(typed, path('allergens')), (why) => read.note(path('allergens'), why)) : [];
  const confirmed =
    figures.sv !== undefined && at(typed, path('svConfirmed')) === figures.sv.value ? { svConfirmed: figures.sv.value } : {};
  const said = { ...figures, ...confirmed, ...decimals, ...(allergens.length === 0 ? {} : { allergens }) };
  const supplier = at(typed, path('supplier'));
  if (Object.keys(said).length === 0 && at(typed, path('date')) === '' && supplier === '') return null;
  const date = read.day(path('date'), messages.lots.badDate);
  read.name(path('supplier'));
  return { date, supplier, ...said };
};

/** "SV 256, density 0.92": what a certificate states, short. */
export const statesOf = ({ certificate }: Lot): string => {
  if (certificate === null) return '';
  const { short } = messages.lots;
  const { sv, acidValue, purity, strength, density, limit, vanillin } = certificate;
  return [
    sv === undefined ? '' : `${short.sv} ${sv.value}`,
    acidValue === undefined ? '' : `${short.acidValue} ${acidValue.value}`,
    purity === undefined ? '' : `${short.purity} ${purity.value} %`,
    strength === undefined ? '' : `${short.strength} ${strength.value} %`,
    density === undefined ? '' : `${short.density} ${density.value}`,
    limit === undefined ? '' : `${short.limit} ${limit} %`,
    vanillin === undefined ? '' : `${short.vanillin} ${vanillin} %`,
  ]
    .filter((text) => text !== '')
    .join(', ');
};
