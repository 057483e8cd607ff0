'use client';
import type { WorkshopVessel } from '#lib/work/formula/index';
import { massOfDecimal } from '#lib/units/parse';
import type { Kind, Reading } from '../../_ui/kept/kind';
import { KeptSection } from '../../_ui/kept/section';
import { at, gather } from '../../_ui/kept/typed';
import type { Typed } from '../../_ui/kept/typed';
import { workshop } from '../messages-workshop';
import { BenchWeight } from './bench-weight';

const { vessels: words, weigh, optional } = workshop;
/** As the shelf takes them. */
const HEAVIEST_G = 50_000;
const LARGEST_ML = 1_000_000;
/** No vessel of a bench is rated higher: a judgement. */
const HOTTEST = 500;

const EATEN: ReadonlySet<string> = new Set(['aluminium', 'zinc', 'tin']);
const pairs = <K extends string>(names: Readonly<Record<K, string>>) => Object.entries<string>(names);

const gramsText = (milligrams: number | null): string => (milligrams === null ? '' : String(milligrams / 1000));

const typedVessel = (vessel: WorkshopVessel | null): Typed => ({
  name: vessel?.name ?? '',
  use: vessel?.use ?? 'oils',
  material: vessel?.material ?? 'unstated',
  empty: gramsText(vessel?.empty ?? null),
  brimMl: vessel?.brimMl == null ? '' : String(vessel.brimMl),
  rating: vessel?.rating ?? '',
});

const readVessel = (id: string, typed: Typed): Reading => {
  const read = gather(typed);
  const name = read.name('name');
  const empty = read.number('empty', { above: 0, to: HEAVIEST_G });
  const brim = read.number('brimMl', { above: 0, to: LARGEST_ML, whole: true });
  const rating = read.number('rating', { above: 0, to: HOTTEST });
  const [use, material] = [at(typed, 'use'), at(typed, 'material')];
  const minds = EATEN.has(material) ? { material: words.eaten } : material === 'glass' && use !== 'aside' ? { material: words.glass } : {};
  const document = {
    id,
    name,
    use,
    material,
    empty: empty === null ? null : massOfDecimal(empty, 'g'),
    brimMl: brim === null ? null : Number(brim),
    rating,
  };
  return { document, errors: read.errors, minds };
};

const VESSELS: Kind<WorkshopVessel> = {
  noun: 'vessel',
  words,
  heads: [
    { name: words.heads.name },
    { name: words.heads.use, wide: true },
    { name: words.heads.material, wide: true },
    { name: words.heads.mass, unit: words.heads.unit, n: true },
    { name: words.heads.brim, unit: words.heads.ml, n: true },
  ],
  nameOf: ({ name }) => name,
  cells: ({ use, material, empty, brimMl }) => [
    words.uses[use],
    words.materials[material],
    empty === null ? words.unknown : gramsText(empty),
    brimMl ?? words.unknown,
  ],
  saidOf: ({ name, use, material, empty, brimMl, rating }) =>
    [
      name,
      words.uses[use],
      words.materials[material],
      empty === null ? '' : `${gramsText(empty)} g`,
      brimMl === null ? '' : `${brimMl} mL`,
      rating === null ? '' : `${rating} °C`,
    ]
      .filter((text) => text !== '')
      .join('; '),
  typedOf: typedVessel,
  specs: (_typed, onTyped) => [
    { kind: 'text', key: 'name', label: words.name },
    { kind: 'choice', key: 'use', label: words.use, options: pairs(words.uses) },
    { kind: 'choice', key: 'material', label: words.material, options: pairs(words.materials) },
    { kind: 'number', key: 'empty', label: words.mass, hint: optional },
    { kind: 'number', key: 'brimMl', label: words.brim, hint: optional },
    { kind: 'number', key: 'rating', label: words.rating, hint: optional },
    {
      kind: 'part',
      key: 'bench',
      part: <BenchWeight acts={[{ name: weigh.one, take: (milligrams) => onTyped({ empty: gramsText(milligrams) }) }]} />,
    },
  ],
  read: readVessel,
};

/** Every vessel, by what it weighs empty. */
export function Vessels() {
  return <KeptSection kind={VESSELS} />;
}
