import { expect, it } from 'vitest';
import { as } from '#lib/units/id';
import type { LineId } from '#lib/units/id';
import { review } from '#lib/work/batch/review';
import { remedyStory } from '#lib/words/review/messages-remedy';
import { showIn } from '#lib/words/quantities';
import { formula } from '#tests/support/formula';
import { batchOf, factsWith, LIMITS } from '#tests/support/remedy-rig';
import { ask, testSolver } from '#tests/support/solver';

const show = showIn({ locale: 'en-GB', mass: 'g', temperature: 'C' });

const head = (params: Parameters<typeof remedyStory>[0]): string => remedyStory({ ...params, why: 'least-change' }, show).head;

/** 340 g of water where 287 g were wanted. */
const wet = () => {
  const rig = batchOf(formula({ limits: LIMITS }));
  rig.weighAll('water');
  rig.weigh('water', 340);
  return rig;
};

it('a way that changes several weights names them, largest first, with what is poured of each', async () => {
  const rig = wet();
  rig.keepOver();
  rig.weighAll();
  // Made into lye it is too weak, and what is in must become more.
  rig.makeLye();
  const card = ask(await testSolver(), rig).cards.find(({ params }) => 'line 2' in params);
  if (card === undefined) throw new Error('no way changes several');
  const { params, lines } = card;
  const moves = [1, 2].map((n) => ({ line: as<LineId>(String(params[`line ${n}`])), by: Number(params[`move ${n}`]) }));
  for (const { line, by } of moves) {
    const found = lines.find((one) => one.line === line);
    expect([found?.change, found?.pour]).toContain(by);
    expect(by).not.toBe(0);
  }
  expect(Math.abs(moves[0]?.by ?? 0)).toBeGreaterThanOrEqual(Math.abs(moves[1]?.by ?? 0));
});

it('the story says which one was recommended where another was taken', async () => {
  const rig = wet();
  const answer = ask(await testSolver(), rig);
  const taken = answer.cards.find(({ enabled, recommended }) => enabled && recommended === null);
  if (taken === undefined) throw new Error('no other card');
  const others = answer.cards.filter((card) => card !== taken);
  rig.must('choose-remedy', { card: taken, others, solved: answer.solved, version: answer.version, facts: factsWith(), held: true });
  const told = review(rig.entries).story.find(({ code }) => code === 'remedy-chosen');
  expect(remedyStory(told?.params ?? {}, show).rest).toContain('Recommended was another: Take 52.5 g out, nothing else was touched.');
});

it('the story names several changes as their card did, and those of an older record by their number', () => {
  const moves = { count: 2, 'of 1': 'Coconut oil', 'move 1': 15_200, 'of 2': 'Sodium hydroxide', 'move 2': 4_200 };
  expect(head({ kind: 'add', ...moves })).toBe('Way out chosen: Add 15.2 g coconut oil, 4.2 g sodium hydroxide.');
  expect(head({ kind: 'least-change', ...moves, 'move 2': -4_200 })).toBe(
    'Way out chosen: Use 15.2 g more coconut oil, 4.2 g less sodium hydroxide.',
  );
  expect(head({ kind: 'add', count: 2 })).toBe('Way out chosen: Add to 2 of them.');
});
