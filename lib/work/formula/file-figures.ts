import { CATALOGUE } from './catalogue/index';
import { withCatalogue } from './catalogue/with';
import { checkLot, checkMaterial, checkMould, checkPreparation } from './checks';
import type { Lot } from './lot';
import type { Material, Preparation } from './material';
import type { Mould } from './mould';
import { problem, type Problem } from './problem';

/** Where it is not known which workshop the file goes to, that one may have what the file only names. */
const ELSEWHERE = new Set(['unknown-material', 'unknown-lot']);
/** Of another document: said beside that one. */
const isOwn = ({ path }: Problem): boolean => !/^(?:materials|lots|preparations)\[/.test(path);
const NOWHERE = { vessels: [], scales: [], pace: null, room: null, losses: { residue: null, pour: null }, calibration: null } as const;

/** The documents of a file that a plan is computed from. */
export interface Content {
  readonly materials: readonly Material[];
  readonly preparations: readonly Preparation[];
  readonly lots: readonly Lot[];
  readonly moulds: readonly Mould[];
}

type Found = readonly { readonly list: keyof Content; readonly at: number; readonly problem: Problem }[];

const all = <T>(list: keyof Content, items: readonly T[], check: (one: T) => readonly Problem[]): Found =>
  items.flatMap((one, at) =>
    check(one)
      .filter(isOwn)
      .map((problem) => ({ list, at, problem })),
  );

const isHere = ({ code }: Problem): boolean => !ELSEWHERE.has(code);

/** "Choose another" is no help in a file: the name it goes by is said. */
const named = (one: Problem): Problem =>
  isHere(one)
    ? one
    : problem('wrong-shape', one.path, {
        words: `“${one.params['material'] ?? one.params['lot'] ?? ''}” is neither in this file nor in the stores here.`,
      });

/** What is here already stays as it is. */
const beside = <T extends { readonly id: string }>(here: readonly T[], file: readonly T[]): readonly T[] => [
  ...here,
  ...file.filter(({ id }) => !here.some((one) => one.id === id)),
];

/**
 * What no plan could be computed from, in a file whose shape is sound: a fat that takes no alkali, a preparation that holds itself or, where
 * the workshop is known that the file goes to, what neither of them has.
 */
export const figuresIn = ({ materials, preparations, lots, moulds }: Content, there: Content | null): Found => {
  const context = withCatalogue({
    ...NOWHERE,
    materials: beside(there?.materials ?? [], materials),
    preparations: beside(there?.preparations ?? [], preparations),
    lots: beside(there?.lots ?? [], lots),
    moulds,
  });
  return [
    ...all('materials', materials, checkMaterial),
    ...all('preparations', preparations, (one) => {
      const wrong = checkPreparation(one, context);
      return there === null ? wrong.filter(isHere) : wrong.map(named);
    }),
    // What a standard does not allow waits for a person's word beside the plan.
    ...all('lots', lots, (one) =>
      checkLot(one, [...CATALOGUE, ...materials]).problems.filter((wrong) => isHere(wrong) && wrong.code !== 'certificate-outside'),
    ),
    ...all('moulds', moulds, checkMould),
  ];
};
