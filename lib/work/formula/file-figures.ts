import { CATALOGUE } from './catalogue/index';
import { withCatalogue } from './catalogue/with';
import { checkLot, checkMaterial, checkMould, checkPreparation } from './checks';
import type { Lot } from './lot';
import type { Material, Preparation } from './material';
import type { Mould } from './mould';
import type { Problem } from './problem';

/** The workshop the file goes to may have what the file only names. */
const ELSEWHERE = new Set(['unknown-material', 'unknown-lot']);
/** Of another document: said beside that one. */
const isOwn = ({ path }: Problem): boolean => !/^(?:materials|lots|preparations)\[/.test(path);
const NOWHERE = { vessels: [], scales: [], pace: null, room: null, losses: { residue: null, pour: null }, calibration: null } as const;

/** The documents of a file that a plan is computed from. */
interface Content {
  readonly materials: readonly Material[];
  readonly preparations: readonly Preparation[];
  readonly lots: readonly Lot[];
  readonly moulds: readonly Mould[];
}

type Found = readonly { readonly list: keyof Content; readonly at: number; readonly problem: Problem }[];

const all = <T>(list: keyof Content, items: readonly T[], check: (one: T) => readonly Problem[]): Found =>
  items.flatMap((one, at) =>
    check(one)
      .filter((problem) => isOwn(problem) && !ELSEWHERE.has(problem.code))
      .map((problem) => ({ list, at, problem })),
  );

/** What no plan could be computed from, in a file whose shape is sound: a fat that takes no alkali, a preparation that holds itself. */
export const figuresIn = ({ materials, preparations, lots, moulds }: Content): Found => {
  const context = withCatalogue({ ...NOWHERE, materials, preparations, lots, moulds });
  return [
    ...all('materials', materials, checkMaterial),
    ...all('preparations', preparations, (one) => checkPreparation(one, context)),
    // What a standard does not allow waits for a person's word beside the plan.
    ...all('lots', lots, (one) =>
      checkLot(one, [...CATALOGUE, ...materials]).problems.filter(({ code }) => code !== 'certificate-outside'),
    ),
    ...all('moulds', moulds, checkMould),
  ];
};
