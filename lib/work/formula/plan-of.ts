import { setsBelow } from '#lib/soap/melting';
import { mg, type Milligrams } from '#lib/units/mass';
import { sumOfAll } from '#lib/units/sum';
import type { Plan } from '../batch/plan';
import type { PlanAnswer, Sizing } from './answer';
import { basisOf } from './basis';
import { balanceOf } from './chemistry';
import type { PlanContext } from './context';
import { derivationsOf } from './derive/index';
import { factsOf, type Facts } from './facts';
import { driestOf, figuresOf, lyeIsTabled, peakOf, reacted, strengthOf } from './figures';
import type { Formula } from './formula';
import { believed } from './interval';
import { joiningPlan } from './joining-plan';
import { inMilligrams, linesOf, wantedOf, type LineFacts } from './lines';
import { lookupOf, type Lookup } from './lookup';
import type { Model } from './model';
import { placesOf } from './places';
import { plannedMoulds } from './planned-moulds';
import { problem, type Problem } from './problem';
import { readFormula } from './read-formula';
import { createReader, HEAVIEST_GRAMS } from './reader';
import { allowedOf, type Allowed } from './references';
import { fragranceRoom, roomAbove } from './room';
import { sized } from './size';
import { sizingOf } from './sizing';
import { solverOf, type Solver } from './solve';
import { fatsOf, stepsOf, timeOf } from './steps';
import { vesselPlanOf } from './vessels';
import { warningsOf, type Planning } from './warnings/index';
import { wholeOf, type Whole } from './whole';

/**
 * The plan a formula becomes in this workshop: what the bench runs, with its figures, how the moulds fill, what to mind and how each number
 * came about. Never throws: what is wrong with the formula comes back as problems, as many at once as can be told apart.
 */
export const planOf = (formula: Formula, context: PlanContext): PlanAnswer => {
  try {
    return planned(formula, context);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    // The chemistry's own door: every figure that cannot be one is refused there too, in words.
    return refused([problem('not-computable', 'entries', { words: error.message })]);
  }
};

const refused = (problems: readonly Problem[]): PlanAnswer => ({ kind: 'problems', problems });

const planned = (formula: Formula, context: PlanContext): PlanAnswer => {
  const reader = createReader();
  const lookup = lookupOf(context, reader);
  const model = readFormula(formula, lookup, reader);
  const facts = factsOf(formula, lookup, reader);
  const allowed = allowedOf(formula, reader);
  if (model === null || facts === null || reader.problems.length > 0) return refused(reader.problems);
  const solver = solverOf(model);
  const strong = tooStrong(model, solver);
  if (strong !== null) return refused([strong]);
  const size = sized(model, solver, facts.wish, facts.size);
  if (size.kind === 'problem') return refused([size.problem]);
  const { whole } = size;
  const wrong = impossible(model, whole);
  return wrong.length > 0 ? refused(wrong) : worked({ formula, allowed }, lookup, model, facts, whole);
};

const HAIR_GRAMS = 0.0005;

/** What only the finished masses show. */
const impossible = ({ items }: Model, whole: Whole): readonly Problem[] => {
  if (!(whole.fats > 0)) return [problem('no-fat', 'entries')];
  if (whole.batter > HEAVIEST_GRAMS) return [problem('batch-too-large', 'size', { grams: Math.round(whole.batter) })];
  const small = items.flatMap(({ path }, at) => {
    const grams = whole.grams[at] ?? 0;
    return grams < HAIR_GRAMS ? [problem('too-small', `${path}.amount`, { grams })] : [];
  });
  return small.length > 0 ? small : lyeProblem(whole);
};

const lyeProblem = (whole: Whole): readonly Problem[] => {
  if (lyeIsTabled(whole)) return [];
  const { naoh, koh } = strengthOf(whole);
  return [problem('lye-too-strong', 'wishes.lye', { percent: 100 * (naoh + koh) })];
};

/** Known before any volume is asked for, of which nothing is tabulated for such a lye: a kilogram of fats shows it. */
const tooStrong = (model: Model, solver: Solver): Problem | null => {
  const answer = solver.at(model.natural ?? 1000);
  if (answer.kind === 'problem') return null;
  const whole = wholeOf(model, answer.grams);
  return whole.fats > 0 ? (lyeProblem(whole)[0] ?? null) : null;
};

const sizingOrNull = (whole: Whole, facts: Facts): Sizing | null => {
  try {
    return sizingOf(whole, facts.size);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
};

interface Asked {
  readonly formula: Formula;
  readonly allowed: readonly Allowed[];
}

const worked = ({ formula, allowed }: Asked, lookup: Lookup, model: Model, facts: Facts, whole: Whole): PlanAnswer => {
  const { context } = lookup;
  const balance = balanceOf(model, whole, facts);
  const fragrances = fragranceRoom(model, whole, driestOf(reacted(whole)));
  const targets = inMilligrams(whole.grams);
  const wanted = targets.map((_, at) => wantedOf(model, whole, balance, roomAbove(model, whole, balance, fragrances, at), at));
  const sizing = sizingOrNull(whole, facts);
  const peak = peakOf(model, whole, facts.room.celsius);
  const places = placesOf(
    {
      items: model.items,
      targets,
      wanted: wanted.map(({ grams }) => grams * 1000),
      batterMl: sizing?.batter.value ?? whole.batter,
      peak: peak?.value ?? null,
      blends: formula.blends,
    },
    context,
  );
  const lineFacts: LineFacts = { model, whole, balance, fragrances, targets, wanted, places, scales: context.scales };
  const lines = linesOf(lineFacts);
  const scaleOf = new Map(lines.map(({ at, scale }) => [at, scale] as const));
  const belief = believed(
    whole,
    model.items.map((_, at) => scaleOf.get(at) ?? null),
  );
  const figures = figuresOf(model, whole, balance, belief, peak);
  const planning: Planning = { formula, allowed, context, model, whole, balance, facts, figures, sizing, places, lines };
  const warnings = warningsOf(planning, lookup.warnings);
  const plan: Plan = {
    formula: { id: formula.id, name: formula.name, version: formula.version },
    vessels: places.used.map(vesselPlanOf),
    lines: lines.map((line) => line.plan),
    joining: joiningPlan(model, facts, setsBelow(fatsOf(lines), null)),
    ...(facts.size.moulds.length === 0 ? {} : { moulds: plannedMoulds(facts, sizing) }),
    ...(facts.parts.length === 0 ? {} : { parts: facts.parts }),
    basis: basisOf(formula, lines, figures, balance, sizing, facts, context),
  };
  return {
    kind: 'plan',
    plan,
    total: totalOf(targets),
    figures,
    lines: lines.map((line) => line.figures),
    sizing,
    steps: stepsOf(lines, places, facts, peak?.value ?? null),
    time: timeOf(lines, context.pace),
    warnings,
    derivations: derivationsOf(planning, belief),
    mayStart: warnings.every(({ level }) => level !== 'must'),
  };
};

const totalOf = (targets: readonly Milligrams[]): Milligrams => mg(sumOfAll(targets));
