'use client';
import type { Lot, Material } from '#lib/work/formula/index';
import type { Spec } from '../../_ui/kept/fields';
import type { Kind } from '../../_ui/kept/kind';
import { KeptList } from '../../_ui/kept/list';
import { at } from '../../_ui/kept/typed';
import type { Typed } from '../../_ui/kept/typed';
import { messages } from '../messages';
import { lotMessages } from '../messages-lots';
import { FilesField } from './files-field';
import { FIELDS_OF, filesOf, filesText, outsideStandard, path, readLot, statesOf, typedLot } from './lot-form';
import type { CertifiedField } from './lot-form';
import { Certified, Left, StockLine, Until } from './lot-cells';
import { gramsText } from './received-form';
import { ScanField } from './scan-field';
import type { Known, Stores } from './stores';

const { lots: words } = messages;
const received = lotMessages;

/** Every lot in the stores. */
export function Lots({ stores, known, again }: { readonly stores: Stores; readonly known: Known; readonly again: () => void }) {
  return <KeptList kind={lotKind(known, stores.used)} items={stores.lots.items} away={stores.lots.away} again={again} />;
}

const lotKind = (known: Known, used: Stores['used']): Kind<Lot> => ({
  noun: 'lot',
  words,
  heads: [
    { name: words.heads.mark, nw: true },
    { name: words.heads.material },
    { name: received.until },
    { name: received.left, n: true },
    { name: words.heads.from, wide: true },
    { name: words.heads.states, wide: true },
  ],
  nameOf: ({ mark }) => mark,
  cells: (lot) => [
    known.nameOf(lot.material),
    <Until key="until" lot={lot} />,
    <Left key="left" lot={lot} used={used[lot.id] ?? 0} />,
    <Certified key="certificate" lot={lot} none={words.noCertificate} />,
    statesOf(lot),
  ],
  saidOf: (lot) =>
    [lot.mark, known.nameOf(lot.material), ...receivedSaid(lot), fromOf(lot), statesOf(lot), ...lot.files.map(({ name }) => name)]
      .filter((text) => text !== '')
      .join('; '),
  typedOf: typedLot,
  specs: (typed, onTyped) => specsOf(typed, onTyped, known, used),
  read: (id, typed) => readLot(id, typed, known),
});

const receivedSaid = ({ supplier = '', received: came, opened, bestBefore, state, why = '', adjustments = [] }: Lot): readonly string[] => [
  supplier,
  came === undefined ? '' : `${came.day} ${gramsText(came.amount)} ${came.amount === undefined ? '' : received.leftUnit}`.trim(),
  opened === undefined ? '' : `${received.opened} ${opened}`,
  bestBefore === undefined ? '' : `${received.until} ${bestBefore}`,
  state === undefined ? '' : `${received.states[state]} ${why}`.trim(),
  ...adjustments.map(({ day, mass, why: because }) => `${day} ${gramsText(mass)} ${received.leftUnit} ${because}`),
];

const fromOf = ({ certificate }: Lot): string =>
  certificate === null ? words.noCertificate : `${certificate.supplier} ${certificate.date}`;

const specsOf = (typed: Typed, onTyped: (change: Typed) => void, known: Known, used: Stores['used']): readonly Spec[] => {
  const material = known.materials.find(({ id }) => id === at(typed, 'material'));
  const prepared = known.preparations.some(({ id }) => id === at(typed, 'material'));
  return [
    { kind: 'part', key: 'scan', part: <ScanField onTyped={onTyped} /> },
    { kind: 'text', key: 'mark', label: words.mark },
    { kind: 'choice', key: 'material', label: words.material, options: [['', messages.choose], ...known.choices] },
    ...receivedSpecs(known.lots.find((lot) => typed['@id'] === lot.id) ?? null, used),
    { kind: 'heading', key: 'certificate', label: words.certificate },
    ...(prepared ? [{ kind: 'part', key: 'prepared', part: <p>{words.prepared}</p> } as const] : []),
    { kind: 'text', key: 'certificate.date', label: words.date, hint: words.dateHint },
    { kind: 'text', key: 'certificate.supplier', label: words.supplier },
    ...(material === undefined ? [] : figureSpecs(material)),
    ...confirmSpecs(typed, known),
    { kind: 'part', key: 'files', part: <FilesField files={filesOf(typed)} onFiles={(files) => onTyped({ files: filesText(files) })} /> },
  ];
};

const receivedSpecs = (lot: Lot | null, used: Stores['used']): readonly Spec[] => [
  { kind: 'heading', key: 'received', label: received.received },
  ...(lot === null ? [] : [{ kind: 'part', key: 'stock', part: <StockLine lot={lot} used={used[lot.id] ?? 0} /> } as const]),
  { kind: 'text', key: 'supplier', label: received.supplier, hint: messages.optional },
  { kind: 'text', key: 'received.day', label: received.day, hint: received.dayHint },
  { kind: 'number', key: 'received.amount', label: received.amount, hint: messages.optional },
  { kind: 'text', key: 'opened', label: received.opened, hint: messages.optional },
  { kind: 'text', key: 'bestBefore', label: received.bestBefore, hint: received.dayHint },
  { kind: 'choice', key: 'state', label: received.state, options: Object.entries(received.states) },
  { kind: 'text', key: 'why', label: received.why, hint: messages.optional },
  { kind: 'text', key: 'gtin', label: received.gtin, hint: messages.optional },
  { kind: 'lines', key: 'adjustments', label: received.adjustments, hint: received.adjustmentsHint },
];

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
