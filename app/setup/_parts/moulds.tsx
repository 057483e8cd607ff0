'use client';
import { mouldVolume } from '#lib/work/formula/index';
import type { Mould } from '#lib/work/formula/index';
import type { Kind } from '../../_ui/kept/kind';
import { KeptSection } from '../../_ui/kept/section';
import { workshop } from '../messages-workshop';
import { FORM_KINDS, formKind, readMould, shapeSpecs, typedMould } from './mould-form';
import { MouldVolume } from './mould-volume';
import { MouldWater } from './mould-water';

const { moulds: words } = workshop;
const shapeName = (mould: Mould): string => words.kinds[formKind(typedMould(mould))];

const MOULDS: Kind<Mould> = {
  noun: 'mould',
  words,
  heads: [{ name: words.heads.name }, { name: words.heads.shape, wide: true }, { name: words.heads.volume, n: true }],
  nameOf: ({ name }) => name,
  cells: (mould) => [shapeName(mould), <MouldVolume key="volume" mould={mould} />],
  saidOf: (mould) => `${mould.name}; ${shapeName(mould)}; ${Object.values(sidesOf(mould)).join(' × ')}`,
  typedOf: typedMould,
  specs: (typed, onTyped) => [
    { kind: 'text', key: 'name', label: words.name },
    { kind: 'choice', key: 'kind', label: words.kind, options: FORM_KINDS.map((one) => [one, words.kinds[one]] as const) },
    ...shapeSpecs(typed),
    ...(formKind(typed) === 'water-fill'
      ? [
          {
            kind: 'part',
            key: 'bench',
            part: <MouldWater onWater={(grams) => onTyped({ 'shape.water': grams, 'shape.unit': 'g' })} />,
          } as const,
        ]
      : []),
    { kind: 'part', key: 'volume', part: <Volume mould={readMould('mould', typed).document} /> },
  ],
  read: readMould,
};

const sidesOf = ({ shape }: Mould): Readonly<Record<string, string>> => {
  const { kind: _, ...sides } = shape.kind === 'tray' ? { ...shape.cavity, cavities: String(shape.cavities) } : { ...shape, cavities: '' };
  return Object.fromEntries(Object.entries(sides).filter(([, value]) => value !== '')) as Readonly<Record<string, string>>;
};

/** Nothing while a length is missing: what is wrong stands beside it. */
function Volume({ mould }: { readonly mould: Mould }) {
  if (mouldVolume(mould) === null) return null;
  return (
    <p aria-live="polite">
      {words.holds} <MouldVolume mould={mould} />
    </p>
  );
}

/** Every mould, with what it holds worked out. */
export function Moulds() {
  return <KeptSection kind={MOULDS} />;
}
