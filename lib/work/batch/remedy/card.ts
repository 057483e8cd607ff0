import { mg, type Milligrams } from '#lib/units/mass';
import { actsOfOne } from './acts';
import { afterRemedy } from './after';
import { benchOf, type Bench } from './bench';
import { figuresAfter, isBelievedHeavy } from './figures';
import { isUnsafe, lacking, leftBy } from './leaves';
import { linesAsTheyStand } from './lines';
import { asItStands } from './programme';
import { toComeOf, type Stand } from './stand';
import type { RemedyAct, RemedyCard, RemedyCaution, RemedyKind, RemedyLine, RemedyWhyNot } from './types';
import type { Way } from './way';

type Params = RemedyCard['params'];

const MILLI = 1000;

/** A card as it is drawn before one is recommended. */
const blank = (id: string, kind: RemedyKind): RemedyCard => ({
  id,
  kind,
  params: {},
  recommended: null,
  held: true,
  enabled: true,
  whyNot: null,
  acts: [],
  lines: [],
  change: mg(0),
  added: mg(0),
  taken: mg(0),
  figures: null,
  leaves: [],
  cautions: [],
});

const massOf = (acts: readonly RemedyAct[]): Milligrams =>
  mg(acts.reduce((sum, act) => (act.kind === 'finish-pour' ? sum : sum + act.mass), 0));

/** What is poured beyond what was still to come. */
const addedBy = ({ stands }: Bench, lines: readonly RemedyLine[]): Milligrams =>
  mg(
    lines.reduce((sum, { line, pour }) => {
      const stand = stands.find(({ id }) => id === line);
      const toCome = stand === undefined ? 0 : toComeOf(stand);
      return sum + Math.max(0, pour - toCome);
    }, 0),
  );

const standOf = ({ stands }: Bench, line: RemedyLine['line']): Stand | undefined => stands.find(({ id }) => id === line);

/** Lines whose mass moves, not their upper alone. */
const movedIn = (bench: Bench, lines: readonly RemedyLine[]): readonly RemedyLine[] =>
  lines.filter(({ line, target }) => {
    const stand = standOf(bench, line);
    return stand === undefined || target !== stand.line.actual + toComeOf(stand);
  });

const KIND_OF_ACT: Readonly<Record<RemedyAct['kind'], RemedyKind>> = {
  'lift-out': 'lift-out',
  'back-to-bottle': 'back-to-bottle',
  'take-out': 'take-out',
  scoop: 'scoop',
  'pour-off': 'pour-off',
  'split-off': 'split',
  'finish-pour': 'finish-pour',
  leave: 'take-out',
};

/** As many changes as a name has room for: the largest, each under its number. Of a line that is in, what is added to it. */
const MOVES_NAMED = 3;
const movesOf = (bench: Bench, moved: readonly RemedyLine[]): Params => {
  const moves = moved.map(({ line, change, pour }) => ({ line, by: standOf(bench, line)?.open === true ? change : pour }));
  const largest = moves.toSorted((a, b) => Math.abs(b.by) - Math.abs(a.by)).slice(0, MOVES_NAMED);
  return Object.fromEntries(
    largest.flatMap(({ line, by }, n) => [
      [`line ${n + 1}`, line],
      [`move ${n + 1}`, by],
    ]),
  );
};

/** Named for what to do: one act, one line still to come, or additions; else the least of several, each named. */
const nameOf = (bench: Bench, { acts, lines }: Way): { readonly kind: RemedyKind; readonly params: Params } => {
  const moved = movedIn(bench, lines);
  const isOpen = ({ line }: RemedyLine): boolean => standOf(bench, line)?.open === true;
  const [act] = acts;
  const [line] = moved;
  const mass = moved.reduce((sum, { pour }) => sum + pour, 0);
  if (act !== undefined && acts.length === 1 && moved.every(({ pour }) => pour === 0))
    return { kind: KIND_OF_ACT[act.kind], params: actParams(act) };
  const several = { count: moved.length, mass, ...movesOf(bench, moved) };
  if (acts.length > 0 || line === undefined) return { kind: 'least-change', params: several };
  if (moved.length === 1 && isOpen(line))
    return { kind: line.change < 0 ? 'use-less' : 'use-more', params: { line: line.line, mass: Math.abs(line.change) } };
  if (moved.some(isOpen)) return { kind: 'least-change', params: several };
  return { kind: 'add', params: moved.length === 1 ? { count: 1, mass, line: line.line } : several };
};

const isPoured = (bench: Bench, line: RemedyLine['line']): boolean => (standOf(bench, line)?.mass ?? 0) > 0;

const actParams = (act: RemedyAct): Params =>
  'line' in act ? { line: act.line, vessel: act.vessel, mass: act.mass } : { vessel: act.vessel, mass: act.mass, ppm: act.ppm };

const cautionsOf = (bench: Bench, { acts, lines }: Pick<Way, 'acts' | 'lines'>): readonly RemedyCaution[] => {
  const caustic = acts.some((act) => 'caustic' in act && act.caustic);
  // What is still to come as planned has its own gate when it comes.
  const hydroxide = lines.some(({ needs, change }) => change !== 0 && needs.includes('hydroxide-gate'));
  const cooled = lines.some(({ needs }) => needs.includes('cooled-lye'));
  const unstated = lines.some(({ line, pour }) => pour > 0 && isPoured(bench, line) && bench.facts.stock[line] === undefined);
  return [
    ...(caustic || hydroxide ? (['protect'] as const) : []),
    ...(acts.some((act) => 'caustic' in act && act.caustic && act.kind === 'take-out') ? (['never-back-to-stock'] as const) : []),
    ...(acts.some((act) => 'caustic' in act && act.caustic && act.kind !== 'take-out') ? (['caustic-waste'] as const) : []),
    ...(cooled ? (['cool-first', 'slowly'] as const) : []),
    ...(acts.some(({ kind }) => kind === 'lift-out') ? (['only-if-solid'] as const) : []),
    ...(acts.some(({ kind }) => kind === 'split-off') ? (['label-as-own-batch'] as const) : []),
    ...(unstated ? (['stock-not-known'] as const) : []),
  ];
};

/** The card of a way out; its figures are those of the batch with exactly these masses. */
export const cardOf = (id: string, bench: Bench, way: Way, as?: { readonly kind: RemedyKind; readonly params: Params }): RemedyCard => {
  const { kind, params } = as ?? nameOf(bench, way);
  const state = afterRemedy(bench.state, way);
  const after = benchOf(state, bench.pot, bench.facts);
  const figures = figuresAfter(state, after);
  if (isBelievedHeavy(state)) return closedCard(id, kind, 'lye-heavy', { params, figures });
  return {
    ...blank(id, kind),
    params,
    acts: way.acts,
    lines: way.lines,
    change: mg(way.change),
    added: addedBy(bench, way.lines),
    taken: massOf(way.acts),
    figures,
    cautions: cautionsOf(bench, way),
  };
};

/** A way that cannot be taken, and why. */
export const closedCard = (id: string, kind: RemedyKind, code: RemedyWhyNot, more: Partial<RemedyCard> = {}): RemedyCard => ({
  ...blank(id, kind),
  ...more,
  enabled: false,
  whyNot: { code, clashes: more.whyNot?.clashes ?? [] },
});

/** Nothing is changed. Never where it is lye-heavy; where it leaves what the formula wants, it says so and is recorded as loosened. */
export const carryOnCard = (bench: Bench, acts: readonly RemedyAct[] = []): RemedyCard => {
  const state = afterRemedy(bench.state, { acts, lines: [] });
  const after = benchOf(state, bench.pot, bench.facts);
  const grams = asItStands(after);
  const leaves = leftBy(after, grams);
  const unsafe = leaves.filter(isUnsafe);
  const lines = linesAsTheyStand(after, grams);
  // Narrower tolerances of what is still to come are doubt less.
  const told = afterRemedy(state, { acts: [], lines });
  const moved = grams.reduce((sum, mass, i) => sum + Math.abs(mass - (asItStands(bench)[i] ?? 0)), 0);
  const card: RemedyCard = {
    ...blank('carry-on', 'carry-on'),
    acts,
    lines,
    change: mg(Math.round(moved * MILLI)),
    taken: massOf(acts),
    figures: figuresAfter(told, benchOf(told, bench.pot, bench.facts)),
    leaves,
    cautions: leaves.length > 0 ? ['outside-formula'] : [],
  };
  if (unsafe.length === 0 && isBelievedHeavy(state)) return { ...closedCard('carry-on', 'carry-on', 'lye-heavy'), figures: card.figures };
  const missing = lacking(after);
  if (unsafe.length === 0 && missing.length > 0)
    return { ...card, enabled: false, whyNot: { code: 'outside-limit', clashes: missing }, leaves: [], cautions: [] };
  if (unsafe.length === 0) return card;
  const code = unsafe.some(({ limit }) => limit === 'superfat-zero') ? 'lye-heavy' : 'outside-limit';
  return { ...card, enabled: false, whyNot: { code, clashes: unsafe }, leaves: [], cautions: [] };
};

/** Always there: everything is kept, labelled and made safe. */
export const stopCard = (caustic: boolean): RemedyCard => ({
  ...blank('stop', 'stop'),
  cautions: ['stop-safely', ...(caustic ? (['protect', 'caustic-waste'] as const) : [])],
});

/** Carrying on where no figure is known: not where the weights alone say lye-heavy, and never as calmly. */
export const carryOnUncomputed = (heavy: boolean, red: boolean): RemedyCard =>
  heavy
    ? closedCard('carry-on', 'carry-on', 'lye-heavy')
    : { ...blank('carry-on', 'carry-on'), cautions: ['not-worked-out', ...(red ? (['outside-formula'] as const) : [])] };

/** One line back to its target, without a figure. */
export const takeBackCard = (stand: Stand, over: Milligrams): RemedyCard => {
  const acts = actsOfOne(stand, over);
  const [act] = acts;
  const { plan } = stand.line;
  const lines: readonly RemedyLine[] = [
    { line: stand.id, target: plan.target, tolerance: plan.tolerance, upper: plan.upper, pour: mg(0), change: 0, needs: [] },
  ];
  const card =
    act === undefined ? blank('take-back', 'take-out') : { ...blank('take-back', KIND_OF_ACT[act.kind]), params: actParams(act) };
  const caustic = acts.some((one) => 'caustic' in one && one.caustic);
  return { ...card, acts, lines, taken: over, cautions: caustic ? ['protect', 'never-back-to-stock'] : [] };
};
