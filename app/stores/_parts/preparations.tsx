'use client';
import { checkPreparation } from '#lib/work/formula/index';
import type { Preparation, PreparationPart } from '#lib/work/formula/index';
import type { Spec } from '../../_ui/kept/fields';
import type { Kind, Reading } from '../../_ui/kept/kind';
import { KeptList } from '../../_ui/kept/list';
import { at, gather } from '../../_ui/kept/typed';
import type { Typed } from '../../_ui/kept/typed';
import { problemText } from '../../_ui/problem-messages';
import { messages } from '../messages';
import { preparations as words } from '../messages-own';
import { contextOf } from './stores';
import type { Known, Stores } from './stores';

/** Masterbatches and stock lyes, by what they are made of. */
export function Preparations({ stores, known, again }: { readonly stores: Stores; readonly known: Known; readonly again: () => void }) {
  return <KeptList kind={kindOf(known)} items={stores.preparations.items} away={stores.preparations.away} again={again} />;
}

const kindOf = (known: Known): Kind<Preparation> => ({
  noun: 'preparation',
  words,
  heads: [{ name: words.heads.name }, { name: words.heads.parts }],
  nameOf: ({ name }) => name,
  cells: (preparation) => [partsText(preparation, known)],
  saidOf: (preparation) => `${preparation.name}: ${partsText(preparation, known)}`,
  typedOf: typedPreparation,
  specs: (typed) => specsOf(typed, known),
  read: (id, typed) => readPreparation(id, typed, known),
});

const partsText = ({ parts }: Preparation, known: Known): string =>
  parts.map(({ material, percent }) => `${known.nameOf(material)} ${percent} %`).join(', ');

const typedPreparation = (preparation: Preparation | null): Typed => ({
  name: preparation?.name ?? '',
  note: preparation?.note ?? '',
  ...Object.fromEntries(
    (preparation?.parts ?? []).flatMap(({ material, lot, percent }, n) => [
      [`parts.${n}.material`, material],
      [`parts.${n}.lot`, lot ?? ''],
      [`parts.${n}.percent`, percent],
    ]),
  ),
});

const FEWEST = 2;
const MOST = 40;

/** As many parts as are filled in, and one more. */
const shownParts = (typed: Typed): number => {
  const filled = Array.from({ length: MOST }, (_, n) => n).findLast(
    (n) => at(typed, `parts.${n}.material`) + at(typed, `parts.${n}.percent`) !== '',
  );
  return Math.min(MOST, Math.max(FEWEST, (filled ?? -1) + 2));
};

const specsOf = (typed: Typed, known: Known): readonly Spec[] => [
  { kind: 'text', key: 'name', label: words.name },
  { kind: 'text', key: 'note', label: words.noteField, hint: messages.optional },
  { kind: 'heading', key: 'parts', label: words.parts },
  ...Array.from({ length: shownParts(typed) }, (_, n): Spec => {
    const material = at(typed, `parts.${n}.material`);
    const lots = known.lots.filter((lot) => lot.material === material).map(({ id, mark }) => [id, mark] as const);
    return {
      kind: 'group',
      key: `parts.${n}`,
      fields: [
        { kind: 'choice', key: `parts.${n}.material`, label: words.material(n + 1), options: [['', messages.choose], ...known.choices] },
        { kind: 'choice', key: `parts.${n}.lot`, label: words.lot(n + 1), options: [['', words.noLot], ...lots] },
        { kind: 'number', key: `parts.${n}.percent`, label: words.percent(n + 1) },
      ],
    };
  }),
];

const readPreparation = (id: string, typed: Typed, known: Known): Reading => {
  const read = gather(typed);
  // Where each part stands in the form: empty rows between are left out of the document.
  const rows: number[] = [];
  const parts: PreparationPart[] = [];
  for (let n = 0; n < shownParts(typed); n += 1) {
    const material = at(typed, `parts.${n}.material`);
    if (material === '' && at(typed, `parts.${n}.percent`) === '') continue;
    if (material === '') read.note(`parts.${n}.material`, messages.choose);
    const lot = known.lots.find((one) => one.id === at(typed, `parts.${n}.lot`) && one.material === material);
    rows.push(n);
    parts.push({ material, lot: lot?.id ?? null, percent: read.must(`parts.${n}.percent`, { to: 100 }) });
  }
  if (parts.length === 0) read.note('parts.0.material', messages.choose);
  const note = at(typed, 'note');
  const document: Preparation = { id, name: read.name('name'), parts, note: note === '' ? null : note };
  if (parts.length === 0) return { document, errors: read.errors, minds: {} };
  for (const one of checkPreparation(document, contextOf(known))) read.note(keyOf(one.path, document, rows), problemText(one));
  return { document, errors: read.errors, minds: {} };
};

/** What is wrong stands beside the part it is about: its own fields, its material or its lot; the sum beside the first share. */
const keyOf = (path: string, { parts }: Preparation, rows: readonly number[]): string => {
  const [, index, field] = /^parts\[(\d+)\]\.(\w+)$/.exec(path) ?? [];
  if (index !== undefined && field !== undefined) return `parts.${rows[Number(index)] ?? 0}.${field}`;
  if (path === 'parts') return `parts.${rows[0] ?? 0}.percent`;
  const [, of] = /^(?:materials|lots|preparations)\[([^\]]+)\]/.exec(path) ?? [];
  const about = parts.findIndex(({ material, lot }) => material === of || lot === of);
  return `parts.${rows[Math.max(0, about)] ?? 0}.material`;
};
