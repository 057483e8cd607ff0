import { checkMould } from '#lib/work/formula/index';
import type { Mould } from '#lib/work/formula/index';
import type { Spec } from '../../_ui/kept/fields';
import type { Reading } from '../../_ui/kept/kind';
import { at, gather } from '../../_ui/kept/typed';
import type { Gather, Typed } from '../../_ui/kept/typed';
import { problemText } from '../../_ui/problem-messages';
import { workshop } from '../messages-workshop';

const { moulds: words } = workshop;
export type FormKind = keyof typeof words.kinds;
export const FORM_KINDS = Object.keys(words.kinds) as FormKind[];
type Shape = Mould['shape'];

const kindOf = ({ shape }: Mould): FormKind => (shape.kind === 'tray' ? `tray-${shape.cavity.kind}` : shape.kind);
export const formKind = (typed: Typed): FormKind => FORM_KINDS.find((one) => one === at(typed, 'kind')) ?? 'box';

export const typedMould = (mould: Mould | null): Typed => {
  const shape = mould?.shape ?? null;
  const one = shape?.kind === 'tray' ? shape.cavity : shape;
  const path = shape?.kind === 'tray' ? 'shape.cavity' : 'shape';
  const sides = one === null ? {} : Object.fromEntries(Object.entries(one).map(([side, value]) => [`${path}.${side}`, String(value)]));
  return {
    name: mould?.name ?? '',
    kind: mould === null ? 'box' : kindOf(mould),
    'shape.cavities': shape !== null && 'cavities' in shape ? String(shape.cavities) : '1',
    lengthU: mould?.lengthU ?? '',
    'shape.unit': 'g',
    ...sides,
  };
};

/** What water is weighed in. */
const UNITS = ['g', 'kg', 'oz', 'lb', 'mg'] as const;

/** Longer is no mould, so that of two readings of a text the one that can be meant is taken. */
const LONGEST = 2000;
const numbers = (read: Gather, key: string): string => read.must(key, { above: 0, to: LONGEST });

const boxAt = (read: Gather, path: string) =>
  ({
    kind: 'box',
    length: numbers(read, `${path}.length`),
    width: numbers(read, `${path}.width`),
    depth: numbers(read, `${path}.depth`),
  }) as const;
const cylinderAt = (read: Gather, path: string) =>
  ({ kind: 'cylinder', diameter: numbers(read, `${path}.diameter`), length: numbers(read, `${path}.length`) }) as const;

const shapeOf = (typed: Typed, read: Gather): Shape => {
  const cavities = (): number => Number(read.must('shape.cavities', { from: 1, to: 1000, whole: true }));
  switch (formKind(typed)) {
    case 'box':
      return boxAt(read, 'shape');
    case 'cylinder':
      return cylinderAt(read, 'shape');
    case 'tray-box':
      return { kind: 'tray', cavities: cavities(), cavity: boxAt(read, 'shape.cavity') };
    case 'tray-cylinder':
      return { kind: 'tray', cavities: cavities(), cavity: cylinderAt(read, 'shape.cavity') };
    case 'water-fill':
      break;
  }
  return {
    kind: 'water-fill',
    water: read.must('shape.water', { above: 0, to: 1_000_000 }),
    unit: UNITS.find((one) => one === at(typed, 'shape.unit')) ?? 'g',
    celsius: read.must('shape.celsius'),
    cavities: cavities(),
  };
};

/** The mould a form says, with what the core's own check finds in it. */
export const readMould = (id: string, typed: Typed): Reading & { readonly document: Mould } => {
  const read = gather(typed);
  const name = read.name('name');
  const shape = shapeOf(typed, read);
  const mould: Mould = { id, name, shape, lengthU: shape.kind === 'water-fill' ? null : read.number('lengthU') };
  for (const one of checkMould(mould)) read.note(one.path, problemText(one));
  return { document: mould, errors: read.errors, minds: {} };
};

const number = (key: string, label: string, hint = ''): Spec => ({ kind: 'number', key, label, hint });

const unit: Spec = { kind: 'choice', key: 'shape.unit', label: words.unit, options: UNITS.map((one) => [one, one] as const) };

/** The fields of one shape; what was typed for another stays in the form. */
export const shapeSpecs = (typed: Typed): readonly Spec[] => {
  const kind = formKind(typed);
  const cavities = number('shape.cavities', words.cavities);
  if (kind === 'water-fill') return [cavities, number('shape.water', words.water), unit, number('shape.celsius', words.celsius)];
  const tray = kind.startsWith('tray');
  const path = tray ? 'shape.cavity' : 'shape';
  const sides = kind.endsWith('box')
    ? [number(`${path}.length`, words.length), number(`${path}.width`, words.width), number(`${path}.depth`, words.depth)]
    : [number(`${path}.diameter`, words.diameter), number(`${path}.length`, words.length)];
  return [...(tray ? [cavities] : []), ...sides, number('lengthU', words.lengthU, words.lengthUHint)];
};
