import type { ScaleRole } from '#lib/measure/instrument';
import type { SceneHint } from './hint';
import { DONE, no } from './scene-types';
import type { Cables, SceneAnswer } from './scene-types';
import { liftOff, pause, setDown, takeProbeOut } from './world/hands';
import { measuredPour, pourByEye } from './world/pour';
import type { PourPlace } from './world/pour';
import type { Vessel } from './world/vessel';
import type { Weighing, World } from './world/world';

/** What two hands can do in the scene. Each begins, or says why not. Masses in mg. */
export interface Maker {
  setDown(vessel: string, role: ScaleRole): SceneAnswer;
  /** What stands on the pan, or, without a role, on whichever pan is not empty. */
  lift(role: ScaleRole | null): SceneAnswer;
  pourByEye(aim: number): SceneAnswer;
  /** An exact amount, not looking; `back`: out of what was poured into. */
  pourExactly(amount: number, back: boolean): SceneAnswer;
  leanProbe(): SceneAnswer;
  takeProbeOut(): SceneAnswer;
}

/** Vessels nobody has weighed, and ones no plan knows. */
const UNKNOWN_EMPTY: Readonly<Record<ScaleRole, number>> = { main: 420_000, fine: 38_000 };
const JUG = { empty: 300_000, contents: 0 };
/** Fastest flow of a pour by amount, mg/s. */
const BRISK = 80_000;

export const createMaker = (world: World, cables: Cables, seen: () => SceneHint | null): Maker => {
  const { hands, chance } = world;

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
    return world.vessel(planned?.id ?? word, { empty: planned?.empty ?? UNKNOWN_EMPTY[role], contents: planned?.contents ?? 0 });
  };

  const lift = (role: ScaleRole | null): SceneAnswer => {
    const found = standing(role);
    if (found === null) return no('pan-empty');
    const { pan } = found.at;
    if (pan.leaning > 0) hands.take(() => takeProbeOut(pan, chance));
    hands.take(() => liftOff(pan, chance));
    return DONE;
  };

  /** Between the jug and what stands on the pan: into it, or out of it. The jug, and a bottle weighed by its loss, never run dry. */
  const place = (needs: number, out: boolean): PourPlace | SceneAnswer => {
    const found = standing(null);
    if (found === null) return no('pan-empty');
    if (!cables.plugged(found.role)) return no('unplugged');
    const { at, vessel } = found;
    const jug = world.vessel('jug', JUG);
    const [from, to] = out ? [vessel, jug] : [jug, vessel];
    const short = Math.ceil(1.5 * needs + 50_000 - from.contents);
    if (short > 0 && (from === jug || seen()?.mode === 'loss')) world.fill(from, short);
    return { from, to, pan: at.pan, scale: at.scale };
  };

  return {
    setDown(word, role) {
      const pan = world.weighings[role]?.pan;
      if (pan === undefined) return no('no-such-scale');
      const vessel = fetch(word, role);
      const where = world.whereIs(vessel);
      if (where === role) return no('already');
      if (pan.standing !== null) return no('pan-occupied');
      if (where !== null) lift(where);
      hands.take(() => setDown(pan, vessel, chance));
      return DONE;
    },
    lift,
    pourByEye(aim) {
      const at = place(aim, seen()?.mode === 'loss');
      if ('ok' in at) return at;
      const role = world.whereIs(at.pan.standing ?? at.to) ?? 'main';
      const tolerance = seen()?.tolerance ?? Math.max(2 * at.scale.model.division, aim / 200);
      const told = { easeOff: () => seen()?.easeOff === true, visible: () => cables.plugged(role) };
      hands.take(() => pourByEye(at, { aim, tolerance }, told, chance));
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
