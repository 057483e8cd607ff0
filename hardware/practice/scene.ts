import type { SceneAct } from '#lib/protocol/intent';
import { BATH_SECONDS, COLD, nextMove, WARM } from './help';
import type { Move } from './help';
import type { SceneHint } from './hint';
import { dissolve, isDryThere, lyeShare, pourTogether } from './joining';
import { createMaker } from './maker';
import { DONE, no } from './scene-types';
import type { Cables, Scene, SceneAnswer, SceneLine } from './scene-types';
import type { World } from './world/world';

/** How far over an over-pour lands, in tolerances. */
const OVER_BY_TOLERANCES = 3;

type Handlers = { readonly [K in SceneAct['act']]: (act: Extract<SceneAct, { act: K }>) => SceneAnswer };

type Moves = { readonly [K in Move['do']]: (move: Extract<Move, { do: K }>) => SceneAnswer };

/** Acts that need both hands free. */
const BY_HAND: ReadonlySet<SceneAct['act']> = new Set(['help', 'set-down', 'lift', 'pour', 'over-pour', 'lean-probe']);

export const createScene = (world: World, cables: Cables): Scene => {
  let seen: SceneHint | null = null;
  const stirred = new Set<string>();
  const maker = createMaker(world, cables, () => seen);

  const look = (hint: SceneHint): void => {
    const before = seen;
    seen = hint;
    if (hint.batch !== null && hint.batch !== (before?.batch ?? null)) {
      world.clearTable();
      stirred.clear();
      world.warmth.refill(hint.dissolved, !hint.stock);
      // Fetched as the record has them, so the vessels hold what was poured together already.
      if (hint.joined !== null) world.warmth.join(lyeShare(hint.joined, hint.shelf));
      return;
    }
    // What a person says was done with the vessels, the hands have done.
    if (hint.dissolved && hint.joined === null) makeLye();
    if (hint.joined !== null && (before?.joined ?? null) === null) pourTogether(world, hint.joined, hint.shelf);
    for (const { from, into } of hint.stirred ?? []) if (!stirred.has(from) && maker.stirIn(from, into)) stirred.add(from);
  };

  const pour = (aim: number | null): SceneAnswer => {
    const wanted = aim ?? seen?.left ?? null;
    if (wanted === null) return no('nothing-open');
    return wanted > 0 ? maker.pourByEye(wanted) : no('nothing-left');
  };

  const overPour = (): SceneAnswer => {
    if (seen === null || seen.left === null || seen.tolerance === null) return no('nothing-open');
    const amount = seen.left + OVER_BY_TOLERANCES * seen.tolerance;
    return amount > 0 ? maker.pourExactly(amount, false) : no('nothing-left');
  };

  const makeLye = (): SceneAnswer => {
    if (seen?.dissolved !== true && !isDryThere(world, seen?.shelf ?? [])) return no('nothing-dry');
    if (!world.warmth.makeLye(seen?.stock !== true)) return no('already');
    dissolve(world, seen?.shelf ?? []);
    return DONE;
  };

  const bathe = (what: 'lye' | 'oils', celsius: number): SceneAnswer => {
    world.warmth[what].bathe({ celsius, seconds: BATH_SECONDS, until: null });
    return DONE;
  };

  const cable = (what: SceneLine, plug: boolean): SceneAnswer => {
    if (cables.plugged(what) === plug) return no('already');
    if (plug) cables.plug(what);
    else cables.unplug(what);
    return DONE;
  };

  const moves: Moves = {
    nothing: ({ why }) => no(why),
    'set-down': ({ vessel, role }) => maker.setDown(vessel, role),
    lift: ({ role }) => maker.lift(role),
    pour: ({ amount }) => maker.pourByEye(amount),
    'take-back': ({ amount }) => maker.pourExactly(amount, true),
    'pour-over': ({ from, amount }) => maker.pourOver(from, amount),
    'probe-out': () => maker.takeProbeOut(),
    plug: ({ line }) => cable(line, true),
    'make-lye': makeLye,
    bathe({ what, bath }) {
      world.warmth[what].bathe(bath);
      return DONE;
    },
  };
  const help = (): SceneAnswer => {
    const move = nextMove(seen, world, cables);
    return (moves[move.do] as (move: Move) => SceneAnswer)(move);
  };

  const handlers: Handlers = {
    help,
    'set-down': ({ vessel, scale }) => maker.setDown(vessel, scale ?? seen?.role ?? 'main'),
    lift: () => maker.lift(null),
    pour: ({ aim }) => pour(aim),
    'over-pour': overPour,
    'lean-probe': () => maker.leanProbe(),
    splash: () => (world.splash(seen?.role ?? 'main') > 0 ? DONE : no('no-such-scale')),
    unplug: ({ what }) => cable(what, false),
    plug: ({ what }) => cable(what, true),
    'make-lye': makeLye,
    warm: ({ what }) => bathe(what, WARM),
    cool: ({ what }) => bathe(what, COLD),
    hurry({ times }) {
      world.warmth.hurry(times);
      return DONE;
    },
  };

  return {
    act(act, hint) {
      if (hint !== null) look(hint);
      if (BY_HAND.has(act.act) && world.hands.doing !== null) return no('hands-full');
      return (handlers[act.act] as (act: SceneAct) => SceneAnswer)(act);
    },
    hint: look,
    leaning: () =>
      Object.values(world.weighings).flatMap(({ pan }) => (pan.leaning > 0 && pan.standing !== null ? [pan.standing.name] : [])),
  };
};
