'use client';
import type { Material } from '#lib/work/formula/index';
import type { Kind } from '../../_ui/kept/kind';
import { KeptList } from '../../_ui/kept/list';
import { messages } from '../messages';
import { own } from '../messages-own';
import { figuresOf } from './figures';
import { readMaterial, typedMaterial } from './own-form';
import { ownSpecs } from './own-specs';
import type { Stores } from './stores';

const figureText = (material: Material): string => {
  const [name, figure] = figuresOf(material)[0] ?? ['', null];
  return figure === null ? '' : `${name} ${figure.value} ${figure.unit}`;
};

const OWN: Kind<Material> = {
  noun: 'material',
  words: own,
  heads: [{ name: own.heads.name }, { name: own.heads.kind, wide: true }, { name: own.heads.figure }],
  nameOf: ({ name }) => name,
  cells: (material) => [messages.kinds[material.kind], figureText(material)],
  saidOf: (material) => {
    const figures = figuresOf(material).flatMap(([name, figure]) => (figure === null ? [] : [`${name} ${figure.value} ${figure.unit}`]));
    return [material.name, ...figures].join('; ');
  },
  typedOf: typedMaterial,
  specs: ownSpecs,
  read: readMaterial,
};

/** What the maker added to the catalogue. */
export function OwnMaterials({ stores: { materials }, again }: { readonly stores: Stores; readonly again: () => void }) {
  return <KeptList kind={OWN} items={materials.items} away={materials.away} again={again} />;
}
