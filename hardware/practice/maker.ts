import type { ScaleRole } from '#lib/measure/instrument';
import type { SceneHint } from './hint';
import { DONE, no } from './scene-types';
import type { Cables, SceneAnswer } from './scene-types';
import { liftOff, pause, setDown, takeProbeOut } from './world/hands';
import { measuredPour, pourByEye } from './world/pour';
import type { PourPlace } from './world/pour';
import { massOf } from './world/vessel';
import type { Vessel } from './world/vessel';
import type { Weighing } from './world/pan';
import type { World } from './world/world';

/** What two hands can do in the scene. Each begins, or says why not. Masses in mg. */
export interface Maker {
  setDown(vessel: string, role: ScaleRole): SceneAnswer;
  /** What stands on the pan, or, without a role, on whichever pan is not empty. */
  lift(role: ScaleRole | null): SceneAnswer;
  pourByEye(aim: number): SceneAnswer;
  /** An exact amount, not looking; `back`: out of what was poured into. */
  pourExactly(amount: number, back: boolean): SceneAnswer;
  /** Out of these by turns into what stands on the pan; what one has not got is not poured. */
  pourOver(from: readonly string[], amount: number): SceneAnswer;
  /** All of one vessel into another, all but what clings; `false`: it stands on a scale yet, or is empty. */
  stirIn(from: string, into: string): boolean;
  leanProbe(): SceneAnswer;
  takeProbeOut(): SceneAnswer;
}

/** Vessels nobody has weighed, and ones no plan knows. */
const UNKNOWN_EMPTY: Readonly<Record<ScaleRole, number>> = { main: 420_000, fine: 38_000 };
/** Divisions a maker keeps free below capacity. */
const SPARE = 100;
/** What may still be poured onto a scale: gross counts, and nobody pours past what it can show. */
const roomOn = ({ scale }: Weighing): number => scale.model.capacity - SPARE * scale.model.division - scale.display().mass;
/** Nothing worth a pour fits any more. */
export const isFull = (at: Weighing): boolean => roomOn(at) < SPARE * at.scale.model.division;
/** Share that clings to a vessel's wall: 2 g in a kilogram, an assumption. */
export const CLINGS = 0.002;
/** Phases in which what stands on the pan is in the record. */
const RECORDED: ReadonlySet<SceneHint['phase']> = new Set(['lift', 'ready']);
const JUG = { empty: 300_000, contents: 0 };
/** So often each jug has its turn. */
const TURNS = 2;
/** Fastest flow of a pour by amount, mg/s. */
const BRISK = 80_000;

export const createMaker = (world: World, cables: Cables, seen: () => SceneHint | null): Maker => {
  const { hands, chance } = world;

  const jugOf = (): Vessel => world.vessel('jug', JUG);

  const standing = (role: ScaleRole | null): { role: ScaleRole; at: Weighing; vessel: Vessel } | null => {
    const roles: readonly ScaleRole[] = role === null ? [seen()?.role ?? 'main', 'main', 'fine'] : [role];
    for (const role of roles) {
      const at = world.weighings[role];
      if (at?.pan.standing != null) return { role, at, vessel: at.pan.standing };
    }
    return null;
  };

  /** By id or by name; a name no plan knows is a stranger's. */
  const fetch = (word: string, role: ScaleRole): Vessel => {
    const planned = seen()?.shelf.find(({ id, name }) => id === word || name === word);
    const vessel = world.vessel(planned?.id ?? word, { empty: planned?.empty ?? UNKNOWN_EMPTY[role], contents: planned?.contents ?? 0 });
    if (planned !== undefined && planned.id === seen()?.vessel) stockBottle(vessel, role);
    return vessel;
  };

  /** A bottle weighed by its loss comes with enough in it for its line. */
  const stockBottle = (vessel: Vessel, role: ScaleRole): void => {
    const hint = seen();
    if (hint?.mode !== 'loss' || hint.target === null) return;
    const room = (world.weighings[role]?.scale.model.capacity ?? 0) - massOf(vessel);
    const lacks = Math.min(1.3 * hint.target + 20_000 - vessel.contents, 0.9 * room);
    if (lacks > 0) world.fill(vessel, Math.round(lacks));
  };

  /** What was accepted goes where the plan carries it, all but what clings to the wall. */
  const carryOver = (from: Vessel): void => {
    const hint = seen();
    if (hint === null || hint.into === null || !RECORDED.has(hint.phase) || from.name !== hint.vessel) return;
    const moved = Math.round(from.contents * (1 - CLINGS));
    fetch(hint.into, 'main').contents += moved;
    from.contents -= moved;
  };

  const lift = (role: ScaleRole | null): SceneAnswer => {
    const found = standing(role);
    if (found === null) return no('pan-empty');
    const { pan } = found.at;
    if (pan.leaning > 0) hands.take(() => takeProbeOut(pan, chance));
    hands.take(() => liftOff(pan, chance, () => carryOver(found.vessel)));
    return DONE;
  };

  /** Between the jug and what stands on the pan: into it, or out of it. The jug never runs dry. */
  const place = (needs: number, out: boolean): PourPlace | SceneAnswer => {
    const found = standing(null);
    if (found === null) return no('pan-empty');
    if (!cables.plugged(found.role)) return no('unplugged');
    const { at, vessel } = found;
    const jug = jugOf();
    const [from, to] = out ? [vessel, jug] : [jug, vessel];
    const short = Math.ceil(1.5 * needs + 50_000 - jug.contents);
    if (short > 0 && !out) world.fill(jug, short);
    return { from, to, pan: at.pan, scale: at.scale };
  };

  return {
    setDown(word, role) {
      const at = world.weighings[role];
      if (at === undefined) return no('no-such-scale');
      const vessel = fetch(word, role);
      const where = world.whereIs(vessel);
      if (where === role) return no('already');
      if (at.pan.standing !== null) return no('pan-occupied');
      if (where !== null) lift(where);
      hands.take(() => setDown(at, vessel, chance));
      return DONE;
    },
    lift,
    pourByEye(aim) {
      const at = place(aim, seen()?.mode === 'loss');
      if ('ok' in at) return at;
      const role = world.whereIs(at.pan.standing ?? at.to) ?? 'main';
      if (at.to !== jugOf() && isFull(at)) return no('full');
      const reach = at.to === jugOf() ? aim : Math.min(aim, roomOn(at));
      const tolerance = seen()?.tolerance ?? Math.max(2 * at.scale.model.division, aim / 200);
      const told = { easeOff: () => seen()?.easeOff === true, visible: () => cables.plugged(role) };
      hands.take(() => pourByEye(at, { aim: reach, tolerance }, told, chance));
      return DONE;
    },
    pourExactly(amount, back) {
      const at = place(amount, back !== (seen()?.mode === 'loss'));
      if ('ok' in at) return at;
      hands.take(
        () => pause(500),
        () => measuredPour(at, amount, 2 + amount / BRISK),
      );
      return DONE;
    },
    pourOver(from, amount) {
      const found = standing(null);
      if (found === null) return no('pan-empty');
      if (!cables.plugged(found.role)) return no('unplugged');
      const { at, vessel } = found;
      const jugs = from.map((id) => fetch(id, 'main')).filter((jug) => jug !== vessel);
      const held = jugs.reduce((sum, { contents }) => sum + contents, 0);
      if (held <= 0) return no('nothing-left');
      const share = (jug: Vessel): number => Math.round((Math.min(amount, held * (1 - CLINGS)) * jug.contents) / held / TURNS);
      const pours = jugs.map((jug) => ({ jug, mass: share(jug) })).filter(({ mass }) => mass > 0);
      for (let turn = 0; turn < TURNS; turn += 1)
        for (const { jug, mass } of pours)
          hands.take(
            () => pause(500),
            () => measuredPour({ from: jug, to: vessel, pan: at.pan, scale: at.scale }, mass, 2 + mass / BRISK),
          );
      return DONE;
    },
    stirIn(id, into) {
      const cup = fetch(id, 'fine');
      if (cup.contents === 0 || world.whereIs(cup) !== null) return false;
      const moved = Math.round(cup.contents * (1 - CLINGS));
      fetch(into, 'main').contents += moved;
      cup.contents -= moved;
      return true;
    },
    leanProbe() {
      const found = standing(null);
      if (found === null) return no('pan-empty');
      if (found.at.pan.leaning > 0) return no('already');
      found.at.pan.leaning = Math.round(chance.between(3_000, 9_000));
      return DONE;
    },
    takeProbeOut() {
      const leant = Object.values(world.weighings).find(({ pan }) => pan.leaning > 0);
      if (leant === undefined) return no('wait');
      hands.take(() => takeProbeOut(leant.pan, chance));
      return DONE;
    },
  };
};
