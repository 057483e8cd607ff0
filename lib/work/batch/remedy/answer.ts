import type { Solver } from '#lib/soap/remedy/solver';
import { potOf } from '../poured/pot';
import { afterRemedy } from './after';
import { benchOf, type Bench } from './bench';
import { carryOnCard, stopCard } from './card';
import { clashesOf } from './clash';
import { NO_FACTS, type RemedyQuestion } from './facts';
import { LEAST } from './programme';
import { inOrder, isSafe } from './recommend';
import { standsOf } from './stand';
import type { RemedyAct, RemedyAnswer, RemedyCard } from './types';
import { surer } from './surer';
import { uncomputedCards } from './uncomputed';
import { isFound, wayOut } from './way';
import { againCard, leastCard, liftCard, noScoop, scaleCard, splitCard, withdrawCard } from './ways-out';

const isCaustic = ({ state }: RemedyQuestion): boolean =>
  standsOf(state, NO_FACTS).some(({ mass, line }) => mass > 0 && line.plan.material.class === 'hydroxide');

/** What lies in a jug though its line counts as poured: where the record has it. */
const leftActs = ({ facts, state }: RemedyQuestion): readonly RemedyAct[] =>
  facts.leftInJug.flatMap(({ line, mass }): readonly RemedyAct[] => {
    const holder = Object.values(state.vessels).find(({ holds }) => (holds[line] ?? 0) >= mass);
    return holder === undefined || mass <= 0 ? [] : [{ kind: 'leave', line, vessel: holder.plan.id, mass }];
  });

/** Hydroxide that stayed behind as the lye was made is not poured on by a word: into lye it goes by its gate, into batter never. */
const goesByGate = ({ state, facts }: RemedyQuestion): boolean =>
  (state.joined !== null || Object.values(state.vessels).some((vessel) => vessel.state === 'dissolved')) &&
  facts.leftInJug.some(({ line }) => state.lines[line]?.plan.material.class === 'hydroxide');

const finishCard = (whole: Bench, question: RemedyQuestion): RemedyCard | null => {
  if (goesByGate(question)) return null;
  const acts = question.facts.leftInJug.map(({ line, vessel, mass }): RemedyAct => ({ kind: 'finish-pour', line, vessel, mass }));
  const [first] = question.facts.leftInJug;
  if (first === undefined) return null;
  const card = carryOnCard(whole);
  if (!card.enabled) return null;
  return { ...card, id: 'finish', kind: 'finish-pour', params: { line: first.line, vessel: first.vessel, mass: first.mass }, acts };
};

/** With what a person said is left behind before everything else of a card. */
const prefixed = (card: RemedyCard, before: readonly RemedyAct[]): RemedyCard =>
  before.length === 0 || !card.enabled || card.kind === 'finish-pour' ? card : { ...card, acts: [...before, ...card.acts] };

/**
 * The ways out of a batch as it stands, at most five, the recommended one first and stopping last. Pure but for the solver.
 * @throws SolverFailed when the solver gave no answer: then `withoutSolver` says what remains
 */
export const answerOf = (question: RemedyQuestion, solve: Solver): RemedyAnswer => {
  const { state, facts, version } = question;
  const read = potOf(state);
  if (read.kind !== 'pot')
    return { version, cards: inOrder(uncomputedCards(question), stopCard(isCaustic(question))), clashes: [], solved: true };
  const left = leftActs(question);
  // Every way begins with what lies in a jug: poured on, or left there.
  const poured = { ...state, leftInJug: [] };
  const whole = benchOf(poured, read.pot, facts);
  const bench = left.length === 0 ? whole : benchOf(afterRemedy(poured, { acts: left, lines: [] }), read.pot, facts);
  const carryOn = carryOnCard(bench);
  const inside = carryOn.enabled && carryOn.leaves.length === 0 && isSafe(carryOn);
  const surest = isSafe(carryOn) ? bench : surer(bench);
  const surely = surest === bench ? null : wayOut(surest, LEAST, 'scoop', solve);
  const bound = isFound(surely) ? surest : bench;
  const way = isFound(surely) ? surely : wayOut(bench, LEAST, 'scoop', solve);
  const scale = scaleCard(bound, solve);
  const withdraw = inside ? null : withdrawCard(bound, isFound(way), solve);
  const cards = [
    finishCard(whole, question),
    carryOn,
    liftCard(bound, solve),
    inside ? null : againCard(bench, solve),
    leastCard(bench, way),
    scale,
    withdraw ?? (inside ? null : noScoop(bench)),
    inside ? null : splitCard(bound, scale, solve),
  ].flatMap((card) => (card === null ? [] : [prefixed(card, left)]));
  return {
    version,
    cards: inOrder(cards, stopCard(isCaustic(question))),
    clashes: way === null && !inside ? clashesOf(bench, LEAST, solve) : [],
    solved: true,
  };
};

/** What remains when nothing could be worked out in time: carrying on, where that is safe, and stopping. */
export const withoutSolver = (question: RemedyQuestion): RemedyAnswer => {
  const read = potOf(question.state);
  const cards = read.kind === 'pot' ? [carryOnCard(benchOf(question.state, read.pot, question.facts))] : uncomputedCards(question);
  return { version: question.version, cards: inOrder(cards, stopCard(isCaustic(question))), clashes: [], solved: false };
};
