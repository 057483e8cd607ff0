import type { ScaleRole } from '#lib/measure/instrument';
import type { IntentWant } from '#lib/protocol/intent';
import type { Action } from './actions';
import { nextMove } from './maker';
import type { Play } from './play';
import { wantOf } from './wishes';

type Doing<K extends Action['do']> = (play: Play, action: Extract<Action, { do: K }>) => void | Promise<void>;

/** Lets one thing happen. A new kind of action does not compile until it does something. */
const ACTS: { readonly [K in Action['do']]: Doing<K> } = {
  async help(play, { times }) {
    for (let i = 0; i < times; i += 1) await help(play);
  },
  wait: (play, { ms, hear }) => play.pass(ms, hear),
  'set-down': (play, { vessel, role }) => {
    const name = vesselAt(play, vessel);
    if (name !== undefined) play.world.setDown(name, role, play.time.now);
  },
  lift: (play, { role }) => play.world.lift(role, play.time.now),
  pour: (play, { how, ms }) => pour(play, how, ms),
  'pour in hand': (play, { vessel, grams }) => {
    const name = vesselAt(play, vessel);
    if (name !== undefined) play.world.pourInHand(name, grams * 1_000);
  },
  shake: (play, { role, ms }) => void (play.world.pans[role].shakenUntil = play.time.now + ms),
  odd: (play, { role, oddity }) => void play.world.pans[role].odd.push(oddity),
  burst: (play, { role, count }) => {
    const { silent, lost } = play.world.pans[role];
    if (silent || lost) return;
    for (let i = 0; i < count; i += 1) play.deliver(role);
  },
  'stand still': (play, { ms }) => play.standStill(ms),
  lose: (play, { role, ms }) => play.lose(role, ms),
  unit: (play, { role, unit }) => void (play.world.pans[role].unit = unit),
  tare: (play, { role }) => play.world.pressTare(role, play.time.now),
  jump: (play, { ms, kind }) => play.jump(ms, kind),
  probes: (play, { lye, oils }) => void (play.probes = { lye, oils }),
  press: (play, { by, key, hold, seen, times }) => play.intend(by, { kind: 'press', key, hold }, seen, times),
  async take(play, { by, card, hold, seen, times }) {
    const want = cardOf(play, card, hold);
    if (want !== null) await play.intend(by, want, seen, times);
  },
  async say(play, { by, wish, seen, times }) {
    const { batch } = seen === 'before' ? play.viewOf(by) : play;
    const want = wantOf(wish, { batch, plan: play.story.plan, turn: play.order.length });
    if (want !== null) await play.intend(by, want, seen, times);
  },
  'lift and look': liftAndLook,
  'undo and tap again': undoAndTapAgain,
  async again(play, { by, back }) {
    const id = play.order.at(-1 - back);
    const sent = id === undefined ? undefined : play.happened.sent.get(id);
    if (sent !== undefined) play.send(by, sent.intent);
    await play.pass(50);
  },
  look: (play, { by }) => play.look(by),
  lease: (play, { by, want }) => play.lease(by, want),
  dark: (play, { by, on }) => play.dark(by, on),
  link: (play, { by, up }) => {
    const screen = play.screens[by];
    if (up) screen.connect(play.boot.bench);
    else screen.cut();
  },
  disk: (play, { mode }) => {
    play.disk.mode = mode;
    if (mode === 'prompt') play.disk.goOn();
  },
  crash: (play) => play.crash(),
};

export const act = async (play: Play, action: Action): Promise<void> => {
  await (ACTS[action.do] as Doing<Action['do']>)(play, action);
  await play.pass(0);
};

const ROLES = ['main', 'fine'] as const satisfies readonly ScaleRole[];

const vesselAt = (play: Play, index: number): string | undefined => {
  const names = [...play.world.vessels.keys()];
  return names[index % Math.max(1, names.length)];
};

/** One turn of somebody who does what the bench says. */
const help = async (play: Play): Promise<void> => {
  const { bench } = play.boot;
  const sight = {
    cue: bench.frame().cue,
    batch: play.batch,
    world: play.world,
    now: play.time.now,
    plan: play.story.plan,
    mood: play.mood(),
  };
  const move = nextMove(sight);
  move.hands?.();
  if (move.want !== undefined && move.want !== null) {
    if (bench.leaseFor(play.screens.tablet.id).holder === null) play.lease('tablet', 'take');
    const holder = bench.leaseFor(play.screens.phone.id).mine ? 'phone' : 'tablet';
    await play.intend(holder, move.want, 'now', 'once');
  }
  await play.pass(move.ms);
};

const pour = (play: Play, how: Extract<Action, { do: 'pour' }>['how'], ms: number): void => {
  const { cue } = play.boot.bench.frame();
  const role = ROLES.find((one) => play.world.pans[one].id === cue.instrument) ?? 'main';
  const left = cue.left ?? 10_000;
  const tolerance = cue.tolerance ?? 1_000;
  const mass = { left, half: left >> 1, over: left + 3 * tolerance, 'far over': left + 40 * tolerance, drop: 300, out: -20_000 }[how];
  play.world.pour(role, Math.round(mass), ms, play.time.now);
};

const cardOf = (play: Play, index: number, hold: boolean): IntentWant | null => {
  const { cards } = play.boot.bench.frame().cue;
  const card = cards[index % Math.max(1, cards.length)];
  return card === undefined ? null : { kind: 'take-card', card: cards.indexOf(card), code: card.code, hold };
};

async function undoAndTapAgain(play: Play, { by, pause }: Extract<Action, { do: 'undo and tap again' }>): Promise<void> {
  await play.intend(by, { kind: 'press', key: 'go-on', hold: true }, 'now', 'once');
  const strike = wantOf({ want: 'strike', back: 0, reason: 'undone', held: true }, { batch: play.batch, plan: play.story.plan, turn: 0 });
  if (strike !== null) await play.intend(by, strike, 'now', 'once');
  await play.pass(pause, false);
  await play.intend(by, { kind: 'press', key: 'go-on', hold: true }, 'now', 'once');
}

/** Free the vessel, lift it, set it down again. */
async function liftAndLook(play: Play, { by, role, ms }: Extract<Action, { do: 'lift and look' }>): Promise<void> {
  const card = play.boot.bench.frame().cue.cards.findIndex(({ code }) => code === 'lift-check');
  if (card >= 0) await play.intend(by, { kind: 'take-card', card, code: 'lift-check', hold: false }, 'now', 'once');
  await play.pass(700);
  const { vessel } = play.world.pans[role];
  if (vessel === null) return;
  play.world.lift(role, play.time.now);
  await play.pass(ms);
  play.world.setDown(vessel, role, play.time.now);
  await play.pass(2_500);
}
