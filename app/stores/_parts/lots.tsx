'use client';
import type { Lot, Material } from '#lib/work/formula/index';
import type { Spec } from '../../_ui/kept/fields';
import type { Kind } from '../../_ui/kept/kind';
import { KeptList } from '../../_ui/kept/list';
import { at } from '../../_ui/kept/typed';
import type { Typed } from '../../_ui/kept/typed';
import { messages } from '../messages';
import { FilesField } from './files-field';
import { FIELDS_OF, filesOf, filesText, outsideStandard, path, readLot, statesOf, typedLot } from './lot-form';
import type { CertifiedField } from './lot-form';
import type { Known, Stores } from './stores';

const { lots: words } = messages;

/** Every lot in the stores. */
export function Lots({ stores, known, again }: { readonly stores: Stores; readonly known: Known; readonly again: () => void }) {
  return <KeptList kind={lotKind(known)} items={stores.lots.items} away={stores.lots.away} again={again} />;
}

const lotKind = (known: Known): Kind<Lot> => ({
  noun: 'lot',
  words,
  heads: [
    { name: words.heads.mark },
    { name: words.heads.material },
    { name: words.heads.from, wide: true },
    { name: words.heads.states, wide: true },
    { name: words.heads.files, n: true, wide: true },
  ],
  nameOf: ({ mark }) => mark,
  cells: (lot) => [known.nameOf(lot.material), fromOf(lot), statesOf(lot), lot.files.length === 0 ? '' : lot.files.length],
  saidOf: (lot) =>
    [lot.mark, known.nameOf(lot.material), fromOf(lot), statesOf(lot), ...lot.files.map(({ name }) => name)]
      .filter((text) => text !== '')
      .join('; '),
  typedOf: typedLot,
  specs: (typed, onTyped) => specsOf(typed, onTyped, known),
  read: (id, typed) => readLot(id, typed, known),
});

const fromOf = ({ certificate }: Lot): string =>
  certificate === null ? words.noCertificate : `${certificate.supplier} ${certificate.date}`;

const specsOf = (typed: Typed, onTyped: (change: Typed) => void, known: Known): readonly Spec[] => {
  const material = known.materials.find(({ id }) => id === at(typed, 'material'));
  const prepared = known.preparations.some(({ id }) => id === at(typed, 'material'));
  return [
    { kind: 'text', key: 'mark', label: words.mark },
    { kind: 'choice', key: 'material', label: words.material, options: [['', messages.choose], ...known.choices] },
    { kind: 'heading', key: 'certificate', label: words.certificate },
    ...(prepared ? [{ kind: 'part', key: 'prepared', part: <p>{words.prepared}</p> } as const] : []),
    { kind: 'text', key: 'certificate.date', label: words.date, hint: words.dateHint },
    { kind: 'text', key: 'certificate.supplier', label: words.supplier },
    ...(material === undefined ? [] : figureSpecs(material)),
    ...confirmSpecs(typed, known),
    { kind: 'part', key: 'files', part: <FilesField files={filesOf(typed)} onFiles={(files) => onTyped({ files: filesText(files) })} /> },
  ];
};

/** A saponification value outside its standard is kept once somebody has looked again. */
const confirmSpecs = (typed: Typed, known: Known): readonly Spec[] => {
  const value = outsideStandard(typed, known);
  if (value === null) return [];
  const { no, yes } = words.outsides;
  const options = [
    ['', no],
    [value, yes],
  ] as const;
  return [{ kind: 'choice', key: path('svConfirmed'), label: words.outside(value), options }];
};

const figureSpecs = (material: Material): readonly Spec[] => {
  const { certified, plain } = FIELDS_OF[material.kind];
  return [
    ...certified.map((field): Spec => ({
      kind: 'group',
      key: `group.${field}`,
      fields: [
        { kind: 'number', key: path(field), label: words[field], hint: usualOf(material, field) },
        { kind: 'number', key: path(`${field}.u`), label: words.uncertainty, hint: messages.optional },
      ],
    })),
    ...plain.map((field): Spec => ({ kind: 'number', key: path(field), label: words[field], hint: messages.optional })),
    ...(material.kind === 'fragrance'
      ? [{ kind: 'lines', key: path('allergens'), label: words.allergens, hint: words.allergensHint } as const]
      : []),
  ];
};

/** What the catalogue has, until something is typed. */
const usualOf = (material: Material, field: CertifiedField): string => {
  const usual =
    field === 'sv' || field === 'acidValue'
      ? material.kind === 'fat' || material.kind === 'wax'
        ? material[field]
        : null
      : field in material && field === 'density' && 'density' in material
        ? material.density
        : null;
  return usual === null ? messages.optional : words.usual(usual.value, usual.low, usual.high);
};
