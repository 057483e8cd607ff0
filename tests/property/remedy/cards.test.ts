import { beforeAll, describe, expect, it } from 'vitest';
import { outcomeAt } from '#lib/soap/poured/outcome';
import type { Solver } from '#lib/soap/remedy/solver';
import type { LineId } from '#lib/units/id';
import { asPoured } from '#lib/work/batch/poured/index';
import { checkRemedy } from '#lib/work/batch/remedy/index';
import type { RemedyCard, RemedyFacts } from '#lib/work/batch/remedy/index';
import type { BatchState, Plan } from '#lib/work/batch/index';
import type { BatchRig } from '#tests/support/batch';
import { formula } from '#tests/support/formula';
import { pouredOver, questionOf, twelvePlan } from '#tests/support/over-pours';
import { randomFrom } from '#tests/support/random-remedy';
import { computed } from '#tests/support/remedy-rig';
import { ask, testSolver } from '#tests/support/solver';

let solve: Solver;
beforeAll(async () => {
  solve = await testSolver();
});

const CASES = 120;

const plans = (): readonly Plan[] => [
  twelvePlan(),
  computed(formula({ limits: { superfat: { low: '4', high: '6' }, lye: { low: '30', high: '36' } } })),
];

/** A random line of a random plan over by a hair to a third, sometimes with its lye made and everything else in. */
const overPoured = (seed: number): { readonly rig: BatchRig; readonly facts: RemedyFacts } => {
  const random = randomFrom(seed);
  const all = plans();
  const plan = all[Math.floor(random() * all.length)] as Plan;
  const line = plan.lines[Math.floor(random() * plan.lines.length)]?.id ?? '';
  const rig = pouredOver(plan, line, 0.005 + 0.33 * random() * random());
  if (random() < 0.3 && rig.now.over !== null) {
    rig.keepOver();
    rig.weighAll().makeLye();
  }
  return { rig, facts: questionOf(rig, Math.floor(random() * 4)).facts };
};

/** Grams of each line by what the vessels hold and what is still to be poured of it: not by the code that made the card. */
const gramsOf = (state: BatchState): readonly number[] =>
  state.order.map((id) => {
    const line = state.lines[id];
    const inside = Object.values(state.vessels).reduce((sum, { holds }) => sum + (holds[id] ?? 0), 0);
    const toCome = line === undefined || line.status === 'closed' ? 0 : Math.max(0, line.plan.target - inside);
    return (inside + toCome) / 1000;
  });

/** What the formula asks, looked at by its own figures; a hair for the last digits. */
const outside = (state: BatchState): readonly string[] => {
  const answer = asPoured(state);
  if (answer.kind !== 'figures') throw new Error(answer.kind);
  const { limits, lines } = answer.pot;
  const { superfat, lye, shares, fragrance, full } = outcomeAt(answer.pot, gramsOf(state));
  const HAIR = 1e-9;
  const beyond = (what: string, value: number | null, band: readonly [number, number] | null): readonly string[] =>
    value === null || band === null || (value >= band[0] - HAIR && value <= band[1] + HAIR) ? [] : [`${what} ${value}`];
  return [
    ...beyond('superfat', superfat, limits.superfat),
    ...beyond('lye', lye, limits.lye),
    ...lines.flatMap(({ id }, at) => beyond(`share of ${id}`, shares[at] ?? null, limits.shares[id] ?? null)),
    ...beyond('fragrance', fragrance, [0, 1]),
    ...beyond('full', full, [0, 1]),
  ];
};

const taken = ({ acts }: RemedyCard, id: LineId): number =>
  acts.reduce((sum, act) => {
    if ('shares' in act) return sum + act.shares.reduce((part, share) => (share.line === id ? part + share.mass : part), 0);
    return act.line === id && act.kind !== 'finish-pour' ? sum + act.mass : sum;
  }, 0);

const ppm = (value: number | undefined): number => Math.round((value ?? Number.NaN) * 1e6);

/** Takes a card as the bench does: chosen, then what leaves, each by a person's word. */
const take = (rig: BatchRig, card: RemedyCard, cards: readonly RemedyCard[], facts: RemedyFacts): BatchState => {
  const { version } = rig.now;
  rig.must('choose-remedy', { card, others: cards.filter((one) => one !== card), solved: true, version, facts, held: true });
  while (rig.now.toDo.length > 0) rig.must('do-remedy-act', { weighed: null, held: true });
  return rig.now;
};

describe(`${CASES} random over-pours, every card that can be taken`, () => {
  it('does what it shows when decide enters it, inside every limit, and nothing decreases but what it takes', { timeout: 240_000 }, () => {
    const seen = new Set<string>();
    for (let seed = 1; seed <= CASES; seed += 1) {
      const { rig, facts } = overPoured(seed);
      const before = rig.now;
      const { cards } = ask(solve, rig, facts);
      expect(cards.length, `seed ${seed}`).toBeLessThanOrEqual(5);
      expect(cards.at(-1)?.kind).toBe('stop');
      for (const card of cards) {
        const told = `seed ${seed}, ${card.kind}`;
        if (!card.enabled || card.kind === 'stop') continue;
        seen.add(card.kind);
        expect(checkRemedy(before, card, facts), told).toBeNull();
        for (const { line, target, pour } of card.lines) {
          const inside = Object.values(before.vessels).reduce((sum, { holds }) => sum + (holds[line] ?? 0), 0);
          expect(target - pour, `${told}, ${line}`).toBe(inside - taken(card, line));
        }
        const replay = overPoured(seed).rig;
        const after = take(replay, card, cards, facts);
        if (card.leaves.length === 0) expect(outside(after), told).toEqual([]);
        const answer = asPoured(after);
        if (answer.kind !== 'figures') throw new Error(answer.kind);
        expect(ppm(answer.superfat?.working), told).toBe(card.figures?.superfat?.value);
        expect(ppm(answer.superfat?.low), told).toBe(card.figures?.superfat?.low);
        if (before.joined === null) expect(ppm(answer.lye?.value), told).toBe(card.figures?.lye);
        for (const { line, ppm: share } of card.figures?.shares ?? [])
          expect(ppm(answer.shares[after.order.indexOf(line)]?.value), `${told}, ${line}`).toBe(share);
        expect(Math.round(gramsOf(after).reduce((sum, one) => sum + one, 0) * 1000), told).toBe(card.figures?.batter);
      }
    }
    expect([...seen].toSorted()).toEqual(
      expect.arrayContaining(['add', 'carry-on', 'lift-out', 'pour-off', 'scale', 'take-out', 'use-more']),
    );
  });
});
