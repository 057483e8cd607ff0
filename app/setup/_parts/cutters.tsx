'use client';
import { checkCutter } from '#lib/work/bars/check';
import type { CutterKept } from '#lib/work/bars/documents';
import type { Kind, Reading } from '../../_ui/kept/kind';
import { KeptSection } from '../../_ui/kept/section';
import { at, gather } from '../../_ui/kept/typed';
import type { Typed } from '../../_ui/kept/typed';
import { cutting } from '../messages-cutting';

const { cutters: words } = cutting;
const KINDS = Object.entries(words.kinds) as readonly (readonly [CutterKept['kind'], string])[];
const ENDS = ['2', '1', '0'] as const;
/** mm: no log of a bench is longer. */
const LONGEST = 10_000;
const MOST_WIRES = 200;

const typedCutter = (cutter: CutterKept | null): Typed => ({
  name: cutter?.name ?? '',
  kind: cutter?.kind ?? 'fixed',
  wires: cutter?.wires == null ? '' : String(cutter.wires),
  gap: cutter?.gap ?? '',
  kerf: cutter?.kerf ?? '0.5',
  least: cutter?.least ?? '',
  most: cutter?.most ?? '',
  ends: String(cutter?.ends ?? 2),
  trim: cutter?.trim ?? '0',
});

const isFixed = (typed: Typed): boolean => at(typed, 'kind') === 'fixed';

const readCutter = (id: string, typed: Typed): Reading => {
  const read = gather(typed);
  const name = read.name('name');
  const fixed = isFixed(typed);
  const length = (key: string, must: boolean): string | null => (must ? read.must(key, { from: 0, to: LONGEST }) : null);
  const wires = fixed ? read.must('wires', { from: 1, to: MOST_WIRES, whole: true }) : '';
  const document: CutterKept = {
    id,
    name,
    kind: fixed ? 'fixed' : 'adjustable',
    wires: wires === '' ? null : Number(wires),
    gap: length('gap', fixed),
    kerf: read.must('kerf', { from: 0, to: LONGEST }),
    least: length('least', !fixed),
    most: length('most', !fixed),
    ends: Number(at(typed, 'ends')) as CutterKept['ends'],
    trim: read.must('trim', { from: 0, to: LONGEST }),
  };
  for (const { path, says } of checkCutter(document)) read.note(path, says);
  return { document, errors: read.errors, minds: {} };
};

const barsOf = ({ gap, least, most }: CutterKept): string => gap ?? words.range(least ?? '', most ?? '');

const CUTTERS: Kind<CutterKept> = {
  noun: 'cutter',
  words,
  heads: [
    { name: words.heads.name },
    { name: words.heads.kind, wide: true },
    { name: words.heads.gap, unit: words.heads.unit, n: true },
    { name: words.heads.kerf, unit: words.heads.unit, n: true },
  ],
  nameOf: ({ name }) => name,
  cells: (cutter) => [words.kinds[cutter.kind], barsOf(cutter), cutter.kerf],
  saidOf: (cutter) => [cutter.name, words.kinds[cutter.kind], `${barsOf(cutter)} mm`, `${cutter.kerf} mm`].join('; '),
  typedOf: typedCutter,
  specs: (typed) => [
    { kind: 'text', key: 'name', label: words.name },
    { kind: 'choice', key: 'kind', label: words.kind, options: KINDS },
    ...(isFixed(typed)
      ? ([
          { kind: 'number', key: 'wires', label: words.wires },
          { kind: 'number', key: 'gap', label: words.gap },
        ] as const)
      : ([
          { kind: 'number', key: 'least', label: words.least },
          { kind: 'number', key: 'most', label: words.most },
        ] as const)),
    { kind: 'number', key: 'kerf', label: words.kerf },
    { kind: 'choice', key: 'ends', label: words.ends, options: ENDS.map((one) => [one, one] as const) },
    { kind: 'number', key: 'trim', label: words.trim },
  ],
  read: readCutter,
};

/** Every cutter, with the bars it gives. */
export function Cutters() {
  return <KeptSection kind={CUTTERS} />;
}
