import type { LabelPage } from '#lib/protocol/label';
import { NO_LABEL_SETTINGS } from '#lib/work/label/settings';
import type { Durability, LabelSettings, MaterialNames } from '#lib/work/label/settings';
import type { Spec } from '../../../_ui/kept/fields';
import type { Reading } from '../../../_ui/kept/kind';
import type { Single } from '../../../_ui/kept/single';
import { at, gather } from '../../../_ui/kept/typed';
import type { Gather, Typed } from '../../../_ui/kept/typed';
import { messages } from '../messages';

const { settings: words } = messages;
const MOST_CAUTIONS = 12;
const [LEAST_MM, MOST_MM] = [20, 280];
const MOST_MONTHS = 120;

const inciKey = (id: string): string => `names.${id}.inci`;
const soapKey = (id: string): string => `names.${id}.saponifiedAs`;

const typedOf =
  ({ materials }: LabelPage) =>
  (before: LabelSettings | null): Typed => {
    const { title, purpose, responsible, origin, durability, cautions, naming, onlySoap, estimated, size, names } =
      before ?? NO_LABEL_SETTINGS;
    return {
      title,
      purpose: purpose ?? '',
      'responsible.name': responsible.name,
      'responsible.address': responsible.address,
      origin: origin ?? '',
      durability: durability.kind,
      months: durability.kind === 'none' ? '' : String(durability.months),
      cautions: cautions.join('\n'),
      naming,
      onlySoap: onlySoap === null ? '' : onlySoap ? 'yes' : 'no',
      estimated: estimated ? 'yes' : 'no',
      'size.width': String(size.width),
      'size.height': String(size.height),
      ...Object.fromEntries(
        materials.flatMap(({ id }) => [
          [inciKey(id), names[id]?.inci ?? ''],
          [soapKey(id), names[id]?.saponifiedAs ?? ''],
        ]),
      ),
    };
  };

const options = (of: Readonly<Record<string, string>>): readonly (readonly [string, string])[] => Object.entries(of);
const text = (key: string, label: string, hint: string = words.optional): Spec => ({ kind: 'text', key, label, hint });

const specsOf =
  ({ materials }: LabelPage) =>
  (typed: Typed): readonly Spec[] => [
    text('title', words.label),
    text('purpose', words.purpose),
    text('responsible.name', words.name, ''),
    { kind: 'lines', key: 'responsible.address', label: words.address },
    text('origin', words.origin),
    { kind: 'choice', key: 'durability', label: words.durability, options: options(words.durabilities) },
    ...(at(typed, 'durability') === 'none' ? [] : [{ kind: 'number', key: 'months', label: words.months } as const]),
    { kind: 'lines', key: 'cautions', label: words.cautions },
    { kind: 'choice', key: 'naming', label: words.naming, options: options(words.namings) },
    { kind: 'choice', key: 'onlySoap', label: words.onlySoap, options: options(words.onlySoaps) },
    { kind: 'choice', key: 'estimated', label: words.estimated, options: options(words.estimateds) },
    { kind: 'number', key: 'size.width', label: words.width },
    { kind: 'number', key: 'size.height', label: words.height },
    { kind: 'heading', key: 'names', label: words.names },
    {
      kind: 'group',
      key: 'names.group',
      broad: true,
      fields: materials.flatMap(({ id, name, inci, saponifiedAs, fat }) => [
        text(inciKey(id), words.inci(name), inci === null ? '' : words.proposed(inci)),
        ...(fat ? [text(soapKey(id), words.soap(name), saponifiedAs === null ? '' : words.proposed(saponifiedAs))] : []),
      ]),
    },
  ];

const said = (typed: Typed, key: string): string | null => (at(typed, key) === '' ? null : at(typed, key));

const durabilityOf = (typed: Typed, read: Gather): Durability => {
  const kind = at(typed, 'durability');
  if (kind !== 'opened' && kind !== 'best-before') return { kind: 'none' };
  return { kind, months: Number(read.must('months', { from: 1, to: MOST_MONTHS, whole: true })) };
};

/** Names of this lot's materials as typed, those of others as they stood. */
const namesOf = (typed: Typed, { materials }: LabelPage, before: LabelSettings['names']): LabelSettings['names'] => {
  const typedHere = materials.map(({ id }): readonly [string, MaterialNames] => [
    id,
    { inci: said(typed, inciKey(id)), saponifiedAs: said(typed, soapKey(id)) },
  ]);
  const all = { ...before, ...Object.fromEntries(typedHere) };
  return Object.fromEntries(Object.entries(all).filter(([, { inci, saponifiedAs }]) => inci !== null || saponifiedAs !== null));
};

const readOf =
  (label: LabelPage) =>
  (typed: Typed, before: LabelSettings | null): Reading & { readonly document: LabelSettings } => {
    const read = gather(typed);
    const millimetres = (key: string): number => Number(read.must(key, { from: LEAST_MM, to: MOST_MM, whole: true }));
    const cautions = (typed['cautions'] ?? '')
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line !== '');
    if (cautions.length > MOST_CAUTIONS) read.note('cautions', words.cautionsMost(MOST_CAUTIONS));
    const soapOnly = at(typed, 'onlySoap');
    const document: LabelSettings = {
      id: 'maker',
      title: at(typed, 'title'),
      purpose: said(typed, 'purpose'),
      responsible: { name: at(typed, 'responsible.name'), address: at(typed, 'responsible.address') },
      origin: said(typed, 'origin'),
      durability: durabilityOf(typed, read),
      cautions,
      naming: at(typed, 'naming') === 'as-soap' ? 'as-soap' : 'as-added',
      onlySoap: soapOnly === '' ? null : soapOnly === 'yes',
      estimated: at(typed, 'estimated') === 'yes',
      size: { width: millimetres('size.width'), height: millimetres('size.height') },
      names: namesOf(typed, label, before?.names ?? {}),
    };
    return { document, errors: read.errors, minds: {} };
  };

/** What the labels of this workshop say, as a form that asks for the names of this lot's materials too. */
export const settingsOf = (label: LabelPage, onKept: () => void): Single<LabelSettings> => ({
  noun: 'label',
  title: words.title,
  note: <p>{words.note}</p>,
  kept: words.kept,
  specs: specsOf(label),
  typedOf: typedOf(label),
  read: readOf(label),
  saidOf: ({ title, responsible, naming }) => words.said(title, responsible.name, words.namings[naming]),
  onKept,
});
