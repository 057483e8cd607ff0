import { checkGoods, checkOrder, checkTrade } from '../orders/check';
import type { Goods, Order, Trade } from '../orders/documents';
import type { Json } from '#lib/record/journal';
import { checkFaults } from '#lib/measure/probe/check';
import type { CheckFault, ProbeCheck } from '#lib/measure/probe/check';
import { checkCure, checkCutter, checkUnmould } from '../bars/check';
import type { CureKept, CutterKept, UnmouldKept } from '../bars/documents';
import { checkLot, checkMaterial, checkMould, checkPreparation, withCatalogue } from '../formula/index';
import type { Lot, Material, Mould, Preparation, Problem } from '../formula/index';
import { issueWords } from '../issue-words';
import { contextOf } from './context';
import { SCHEMAS } from './documents';
import type { Noun, Shelf } from './shelf';

/** What is wrong in a document, beside the field it stands in. */
export interface FieldProblem {
  /** Path from the document's root, for example `entries.2.amount.percent`; empty for the whole. */
  readonly path: string;
  readonly says: string;
  /** Of a figure that cannot be: which of the plan's own problems it is, for the screen's words. */
  readonly problem?: Problem;
}

/**
 * What is wrong with a document, at most one problem a field; nothing when it may be kept. An unfinished or wrong formula has a sound
 * shape: what is wrong with its figures is `planOf`'s to say, and the maker's to mend another day. What a plan is computed from is looked
 * at whole, among what the workshop has.
 */
export const checkDocument = (noun: Noun, id: string, document: Json, shelf: () => Shelf): readonly FieldProblem[] => {
  const read = SCHEMAS[noun].safeParse(document);
  if (!read.success) return read.error.issues.map((issue) => ({ path: issue.path.map(String).join('.'), says: issueWords(issue) }));
  if ((document as { readonly id?: Json }).id !== id) return [{ path: 'id', says: 'The document bears another name than its address.' }];
  return figuresOf(noun, document, shelf);
};

const told = (problems: readonly Problem[]): readonly FieldProblem[] =>
  problems.map((problem) => ({
    path: problem.path.replaceAll(/\[([^\]]*)\]/g, '.$1'),
    says: problem.code === 'unknown-material' ? NO_MATERIAL : `A figure that cannot be so: ${problem.code.replaceAll('-', ' ')}.`,
    problem,
  }));

const NO_MATERIAL = 'No material or preparation of the stores, and none of the catalogue, bears that name.';

const PROBE_WORDS: Readonly<Record<CheckFault, string>> = {
  'too-far-off': 'It is off by more than 5 °C: the probe is broken, or it does not stand in that water. It is not corrected by so much.',
  'not-two-points': 'It showed nearly the same in ice and in boiling water: it did not stand in one of them.',
  'not-its-point': 'Ice water is 0 °C, and water boils where its altitude says.',
};

const figuresOf = (noun: Noun, document: unknown, shelf: () => Shelf): readonly FieldProblem[] => {
  switch (noun) {
    case 'material':
      return told(checkMaterial(document as Material));
    case 'mould':
      return told(checkMould(document as Mould));
    case 'preparation':
      return told(checkPreparation(document as Preparation, withCatalogue(contextOf(shelf(), []))));
    case 'lot':
      return ofLot(document as Lot, shelf());
    case 'probe':
      return checkFaults(document as ProbeCheck).map(([path, fault]) => ({ path, says: PROBE_WORDS[fault] }));
    case 'order':
      return checkOrder(document as Order);
    case 'trade':
      return checkTrade(document as Trade);
    case 'goods':
      return checkGoods(document as Goods);
    case 'cutter':
      return checkCutter(document as CutterKept);
    case 'cure':
      return checkCure(document as CureKept);
    case 'unmould':
      return checkUnmould(document as UnmouldKept);
    case 'formula':
    case 'vessel':
    case 'habits':
    case 'prepared':
    case 'fill':
    case 'label':
    case 'complaint':
      break;
  }
  return [];
};

/** A lot outlives its material on the shelf, may be of a preparation, and waits for its confirmation beside the plan. */
const ofLot = (lot: Lot, shelf: Shelf): readonly FieldProblem[] => {
  const { materials } = withCatalogue(contextOf(shelf, []));
  const { problems } = checkLot(lot, materials);
  if (!materials.some(({ id }) => id === lot.material) && !wasEverHere(lot, shelf)) return told(problems);
  return told(problems.filter(({ code }) => code !== 'unknown-material' && code !== 'certificate-outside'));
};

/** Of something that was put away, or kept so before: what stands in such a lot can still be put right. */
const wasEverHere = ({ id, material }: Lot, { material: own, preparation, lot }: Shelf): boolean =>
  own.has(material) ||
  preparation.has(material) ||
  (lot.get(id)?.versions.some(({ document }) => (document as unknown as Lot | null)?.material === material) ?? false);
