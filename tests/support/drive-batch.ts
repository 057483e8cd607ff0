import type { IntentWant, SceneAct } from '#lib/protocol/intent';
import type { Card } from '#lib/bench/cue';
import type { LiveFrame } from '#lib/protocol/live';
import type { BatchState, HoldReason, OverChoice } from '#lib/work/batch/index';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import { allHeard } from '#tests/support/server-rig';
import type { ScreenRig } from '#tests/support/server-rig';

/** How a batch is to go. Lines not named are weighed by the practice bench's own hands, within tolerance. */
export interface Drive {
  readonly plan: string;
  /** Lines to pour over: by how many grams, and the answer given. */
  readonly over?: Readonly<Record<string, { readonly by: number; readonly answer: OverChoice }>>;
  /** Lines to type by hand, in grams. */
  readonly byHand?: Readonly<Record<string, string>>;
  /** The first line, or phase of the bench, that is left alone: the batch stands there. */
  readonly until?: string;
  /** Joined although these hold. */
  readonly override?: readonly HoldReason[];
}

const LOOK_MS = 150;
const ALIVE_MS = 1_000;

/**
 * One batch on a server's practice bench from start to close, through the socket alone: a maker at a screen, with the simulated hands
 * asked for help. Takes the lease and keeps it. Returns the batch as it stands then.
 */
export const driveBatch = async (screen: ScreenRig, drive: Drive): Promise<BatchState> => {
  await screen.lease('take', 'bench screen');
  await allHeard(screen);
  await must(screen, { kind: 'start', plan: drive.plan, lots: firstLots(drive.plan) });
  return driveOn(screen, drive);
};

/** The same of a batch already begun, by a screen that has the lease. */
export const driveOn = async (screen: ScreenRig, drive: Omit<Drive, 'plan'>): Promise<BatchState> => {
  const boot = (await screen.greeted()).boot;
  const alive = setInterval(() => screen.socket.emit('alive', { visible: true, boot }), ALIVE_MS);
  try {
    // A probe whose temperature leaps looks dipped, so time runs faster only once nothing is on a pan.
    await scene(screen, { act: 'hurry', times: 1 });
    const poured = new Map<string, 'aimed' | 'answered'>();
    for (;;) {
      const { cue } = await screen.frame(() => true);
      const batch = screen.batch();
      if (batch === null) throw new Error('the batch is gone');
      if (batch.status === 'closed' || batch.status === 'abandoned') return batch;
      if (drive.until !== undefined && (cue.line === drive.until || cue.phase === drive.until)) return batch;
      if (cue.phase === 'temperatures') await scene(screen, { act: 'hurry', times: 60 });
      await turn(screen, drive, cue, batch, poured);
      await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
    }
  } finally {
    clearInterval(alive);
  }
};

type Cue = LiveFrame['cue'];

const turn = async (
  screen: ScreenRig,
  drive: Omit<Drive, 'plan'>,
  cue: Cue,
  batch: BatchState,
  poured: Map<string, 'aimed' | 'answered'>,
): Promise<void> => {
  const { line } = cue;
  const standing = toCrossOut(drive, batch);
  if (standing !== null) return must(screen, { kind: 'strike', entry: standing, reason: 'over-poured', note: '', held: true });
  const typed = line === null ? undefined : drive.byHand?.[line];
  if (line !== null && typed !== undefined && cue.phase !== 'gate') return typeWeight(screen, line, typed, batch);
  // Crossed out already: the hands now take out what is too much.
  if (cue.phase === 'over' && line !== null && !isCrossedOut(batch, line)) {
    poured.set(line, 'answered');
    const asked = drive.over?.[line]?.answer ?? 'carry-on';
    return take(screen, cue, cue.cards.some(({ code }) => code === asked) ? asked : 'carry-on');
  }
  const over = line === null || poured.get(line) === 'answered' ? undefined : drive.over?.[line];
  // Help asked for now would come when the bench is ready already, and pour to the target.
  if (over !== undefined && cue.phase === 'settling-vessel') return undefined;
  if (over !== undefined && line !== null && ['ready', 'pouring', 'settling', 'short'].includes(cue.phase)) {
    // The hands know how far they aim; help would aim for the target again.
    if (cue.phase !== 'ready' || poured.has(line) || cue.left === null) return undefined;
    if ((await scene(screen, { act: 'pour', aim: cue.left + Math.round(over.by * 1000) })) === null) poured.set(line, 'aimed');
    return undefined;
  }
  if (batch.status === 'joined') return finish(screen, cue, batch);
  const override = cue.cards.findIndex(
    ({ code, params }) => code === 'override' && drive.override?.includes(params['reason'] as HoldReason),
  );
  if (override >= 0) return takeAt(screen, cue.cards, override);
  // Oils melted anew for another batch leap like a dipped probe; a lift shows that none leans.
  const why = await scene(screen, { act: cue.block === 'probe-leaning' ? 'lift' : 'help' });
  if (why === 'needs-person') return answer(screen, cue);
  // More than scale or vessel takes, and the hands have stopped: this part is kept and the rest weighed after.
  const part = cue.cards.findIndex(({ code, enabled }) => code === 'part-pour' && enabled);
  if (part >= 0 && why !== null && why !== 'hands-full') return takeAt(screen, cue.cards, part);
  return undefined;
};

/**
 * A weight that stands over and was to be crossed out: where a way out takes the same back out there is no card for it, so it was carried on
 * with, and is crossed out as any other weight may be. Its entry.
 */
const toCrossOut = (drive: Omit<Drive, 'plan'>, batch: BatchState): string | null => {
  for (const [id, { answer }] of Object.entries(drive.over ?? {})) {
    const line = batch.lines[id as keyof typeof batch.lines];
    const last = line?.contributions.at(-1);
    if (answer !== 'cross-out' || line === undefined || last === undefined || last.struck !== null || batch.over !== null) continue;
    if (line.actual > line.plan.target + line.plan.tolerance) return last.entry;
  }
  return null;
};

const isCrossedOut = (batch: BatchState, line: string): boolean =>
  (batch.lines[line as keyof typeof batch.lines]?.contributions.at(-1)?.struck ?? null) !== null;

const typeWeight = async (screen: ScreenRig, line: string, grams: string, batch: BatchState): Promise<void> => {
  if (batch.lines[line as keyof typeof batch.lines]?.status === 'closed') return;
  const net = Math.round(Number(grams) * 1000);
  await screen.intent({ kind: 'type-weight', line, net, text: grams, unit: 'g', readBack: true, part: false, held: true });
};

/** What a person does when hands alone cannot go on: goes on, or takes the first card that may be taken. */
const answer = async (screen: ScreenRig, { cards, goOn }: Cue): Promise<void> => {
  if (goOn !== null && goOn.code !== 'next-card') return void (await screen.intent({ kind: 'press', key: 'go-on', hold: goOn.hold }));
  const card = cards.findIndex(({ enabled }) => enabled);
  if (card >= 0) await takeAt(screen, cards, card);
};

const finish = async (screen: ScreenRig, cue: Cue, batch: BatchState): Promise<void> => {
  if (batch.trace.length === 0) return take(screen, cue, 'trace-medium');
  if (batch.parts.length === 0) return split(screen, batch);
  return must(screen, { kind: 'close' });
};

/** Into two moulds: two thirds and what is left, all but a little that stays in the pot. */
const split = async (screen: ScreenRig, batch: BatchState): Promise<void> => {
  const pot = Object.values(batch.vessels).toSorted((a, b) => b.contents - a.contents)[0];
  if (pot === undefined) throw new Error('no vessel');
  const poured = Math.floor(pot.contents * 0.985);
  const log = Math.floor((poured * 2) / 3);
  await must(screen, {
    kind: 'split',
    vessel: pot.plan.id,
    parts: [
      { name: 'Log', mass: log },
      { name: 'Tray of six', mass: poured - log },
    ],
  });
};

const take = (screen: ScreenRig, { cards }: Cue, code: string): Promise<void> =>
  takeAt(
    screen,
    cards,
    cards.findIndex((card) => card.code === code),
  );

const takeAt = async (screen: ScreenRig, cards: readonly Card[], at: number): Promise<void> => {
  const card = cards[at];
  if (card !== undefined) await screen.intent({ kind: 'take-card', card: at, code: card.code, hold: true });
};

const must = async (screen: ScreenRig, want: IntentWant): Promise<void> => {
  const answer = await screen.intent(want);
  if (!answer.ok) throw new Error(`${want.kind} was refused: ${answer.refusal.code} ${JSON.stringify(answer.refusal.params)}`);
};

const scene = (screen: ScreenRig, act: SceneAct): Promise<string | null> =>
  new Promise((resolve) => screen.socket.emit('scene', act, ({ why }) => resolve(why)));

/** The first lot in the stores of every material. */
const firstLots = (plan: string): Record<string, { id: string; mark: string }> => {
  const lots = SAMPLE_PLANS.find(({ id }) => id === plan)?.lots ?? {};
  return Object.fromEntries(
    Object.entries(lots).flatMap(([line, [first]]) => (first === undefined ? [] : [[line, { ...first }] as const])),
  );
};
