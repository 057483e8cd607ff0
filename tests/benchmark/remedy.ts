/**
 * How long the cards take after a settled over-pour, from its weight being decided: twelve lines, every limit, every card, stock little and
 * much, asked of the thread that the server asks, there and back. `npm run bench:remedy`. The goal is 50 ms at the 99th percentile on two cores, the solver loaded before.
 */
import { loadavg } from 'node:os';
import { createRemedyDesk } from '#server/remedy/desk';
import { overBy, pouredUpTo, questionOf, twelvePlan } from '#tests/support/over-pours';

/** Each line over by so many amounts, from a hair to two fifths, each a question of its own. */
const AMOUNTS = 100;
const GOAL = 50;
const OVERS = Array.from({ length: AMOUNTS }, (_, i) => 0.015 * (0.4 / 0.015) ** (i / (AMOUNTS - 1)));

/** Shares no factor with the number of questions. */
const STRIDE = 7;

const plan = twelvePlan();
if (plan.lines.length !== 12) throw new Error(`${plan.lines.length} lines`);
const pours = plan.lines.flatMap(({ id }, at) => OVERS.map((by, i) => ({ id, by, stock: at + i, rig: pouredUpTo(plan, id) })));

const desk = createRemedyDesk({
  patienceMs: 10_000,
  trouble: (what, why) => console.log(`${what}: ${why}`),
});
const loading = performance.now();
await desk.ready();
console.log(
  `${pours.length} over-pours of ${plan.lines.length} lines; solver loaded and warm in ${(performance.now() - loading).toFixed(0)} ms`,
);

let [cards, unsolved] = [0, 0];
const times: number[] = [];
// In an order that has nothing to do with which line is over, so that no stretch of a busy machine falls on one kind.
for (let n = 0; n < pours.length; n += 1) {
  const { rig, id, by, stock } = pours[(n * STRIDE) % pours.length] as (typeof pours)[number];
  const start = performance.now();
  const answer = await desk.answer(questionOf(overBy(rig, id, by), stock));
  times.push(performance.now() - start);
  if (answer.cards.length < 2) throw new Error('no answer');
  if (!answer.solved) unsolved += 1;
  cards += answer.cards.length;
}
await desk.stop();
times.sort((a, b) => a - b);
const at = (share: number): number => times[Math.min(times.length - 1, Math.floor(share * times.length))] ?? Number.NaN;
console.log(`${(cards / pours.length).toFixed(1)} cards to a question`);
console.log(
  `median ${at(0.5).toFixed(1)}, p99 ${at(0.99).toFixed(1)}, longest ${at(1).toFixed(1)} ms of ${times.length} questions, each asked once; goal: p99 below ${GOAL} ms; load ${(loadavg()[0] ?? 0).toFixed(1)}`,
);
if (unsolved > 0) console.log(`not worked out at all: ${unsolved}`);
if (!(at(0.99) < GOAL) || unsolved > 0) process.exitCode = 1;
