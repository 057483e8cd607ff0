import type { BlockReason, CuePhase } from '#lib/bench/cue';
import type { ScaleRole } from '#lib/measure/instrument';
import type { SceneHint } from './hint';
import type { JobHint } from './pour-hint';
import { isFull } from './maker';
import type { Cables, SceneLine, SceneWhy } from './scene-types';
import type { Bath } from './world/kettle';
import type { World } from './world/world';

/** The next thing a competent maker does with their hands. */
export type Move =
  | { readonly do: 'nothing'; readonly why: SceneWhy }
  | { readonly do: 'set-down'; readonly vessel: string; readonly role: ScaleRole }
  | { readonly do: 'lift'; readonly role: ScaleRole | null }
  | { readonly do: 'pour'; readonly amount: number }
  | { readonly do: 'take-back'; readonly amount: number }
  /** Out of these by turns, into what stands on the pan. */
  | { readonly do: 'pour-over'; readonly from: readonly string[]; readonly amount: number }
  | { readonly do: 'probe-out' }
  | { readonly do: 'plug'; readonly line: SceneLine }
  | { readonly do: 'make-lye' }
  | { readonly do: 'bathe'; readonly what: 'lye' | 'oils'; readonly bath: Bath };

const nothing = (why: SceneWhy): Move => ({ do: 'nothing', why });

/** Cold tap water and a warm water bath, °C, and how long a vessel stays in one when nothing else ends it. */
export const COLD = 12;
export const WARM = 60;
export const BATH_SECONDS = 300;

/** Where both vessels should come to when no plan says, thousandths of a degree: common practice, no source. */
const USUAL_WINDOW = { low: 30_000, high: 50_000 };

type Ask = (hint: SceneHint, world: World, cables: Cables) => Move;

const wait: Ask = () => nothing('wait');
const person: Ask = () => nothing('needs-person');

/** The vessel the bench names on the scale it names; whatever else stands there is put away first. */
const bringVessel: Ask = ({ vessel, role }, world) => {
  if (vessel === null || role === null) return nothing('nothing-open');
  const standing = world.weighings[role]?.pan.standing ?? null;
  if (standing === null) return { do: 'set-down', vessel, role };
  return standing.name === vessel ? nothing('wait') : { do: 'lift', role };
};

const pour: Ask = ({ left, tolerance, phase, into, role }, world) => {
  const at = role === null ? undefined : world.weighings[role];
  // A part is in the record and nothing more fits: it goes where the plan carries it.
  if (phase === 'ready' && into !== null && role !== null && at !== undefined && isFull(at)) return { do: 'lift', role };
  if (left === null) return nothing('nothing-open');
  // When the bench says short, it is, whatever the hands would let pass.
  if (phase !== 'short' && Math.abs(left) <= (tolerance ?? 0)) return nothing('wait');
  if (left > 0) return { do: 'pour', amount: left };
  // A part is in, and a person keeps it.
  if (left === 0 && phase === 'short') return nothing('needs-person');
  return left < 0 ? { do: 'take-back', amount: -left } : nothing('wait');
};

/** An over-pour is a person's to answer; once crossed out, what is too much comes out again. */
const takeBack: Ask = ({ crossedOut, left }) =>
  crossedOut && left !== null && left < 0 ? { do: 'take-back', amount: -left } : nothing('needs-person');

/** The vessel the bench names, wherever it stands. */
const lift: Ask = ({ vessel }, world) => {
  const named = world.vessels.get(vessel ?? '');
  const role = named === undefined ? null : world.whereIs(named);
  return role === null ? nothing('wait') : { do: 'lift', role };
};

/** Whatever stands on the scale the bench speaks of. */
const clear: Ask = ({ role }, world) =>
  role !== null && world.weighings[role]?.pan.standing != null ? { do: 'lift', role } : nothing('wait');

/** Someone else's vessel goes; the right one, unlike its usual mass, a person has to vouch for. */
const stranger: Ask = (hint, world, cables) =>
  hint.role !== null && world.weighings[hint.role]?.pan.standing?.name === hint.vessel
    ? nothing('needs-person')
    : clear(hint, world, cables);

/** After a restart or a walk to the hob: back on the pan, then a person speaks. */
const putBack: Ask = (hint, world, cables) => {
  const move = bringVessel(hint, world, cables);
  return move.do === 'nothing' ? nothing('needs-person') : move;
};

const plugBack: Ask = (_, __, cables) => {
  const out = (['main', 'fine', 'lye', 'oils', 'room'] as const).find((line) => !cables.plugged(line));
  return out === undefined ? nothing('wait') : { do: 'plug', line: out };
};

const UNBLOCK: Readonly<Record<BlockReason, Ask>> = {
  'probe-leaning': () => ({ do: 'probe-out' }),
  'wrong-vessel': clear,
  'other-scale': lift,
  overload: clear,
  capacity: clear,
  lost: plugBack,
  moving: wait,
  late: wait,
  'after-stall': wait,
  underload: wait,
  suspect: person,
  'unit-changed': person,
  'tare-pressed': person,
  'no-lease': person,
  'no-lot': person,
  disarmed: person,
  drift: person,
};

const unblock: Ask = (hint, world, cables) => (hint.block === null ? nothing('wait') : UNBLOCK[hint.block](hint, world, cables));

/** Lye made, then each vessel helped towards the middle of the window from whichever side it is on. */
const meet: Ask = ({ window, dissolved }, { warmth }) => {
  if (!warmth.lyeMade) return { do: 'make-lye' };
  if (!dissolved) return nothing('needs-person');
  const { low, high } = window ?? USUAL_WINDOW;
  const middle = (low + high) / 2000;
  for (const what of ['lye', 'oils'] as const) {
    const { celsius, bathing } = warmth[what];
    if (bathing) continue;
    const near = (high - low) / 8000;
    if (celsius > middle + near) return { do: 'bathe', what, bath: { celsius: COLD, seconds: 2 * BATH_SECONDS, until: middle } };
    if (celsius < middle - near) return { do: 'bathe', what, bath: { celsius: WARM, seconds: 2 * BATH_SECONDS, until: middle } };
  }
  return nothing('wait');
};

/** A mould's worth. */
const PORTION = 400_000;

const ROLES: readonly ScaleRole[] = ['main', 'fine'];

/** A cup that is to be stirred in and stands on a scale yet. */
const cupsOn = ({ stirred = [] }: SceneHint, world: World): ScaleRole | null => {
  const cups = new Set(stirred.map(({ from }) => from));
  return ROLES.find((role) => cups.has(world.weighings[role]?.pan.standing?.name ?? '')) ?? null;
};

const TO_SET_DOWN: ReadonlySet<SceneHint['portion']> = new Set(['set-down', 'set-pot', 'set-jug', 'off']);

/** Parts, moulds and what stays behind: whatever the job wants on its scale, then by turns out of its jugs. */
const pourJob =
  (job: JobHint): Ask =>
  (hint, world, cables) => {
    const stirred = cupsOn(hint, world);
    if (stirred !== null) return { do: 'lift', role: stirred };
    if (TO_SET_DOWN.has(hint.portion)) return bringVessel(hint, world, cables);
    if (hint.portion === 'clear' || hint.portion === 'strange') return clear(hint, world, cables);
    if (hint.portion !== 'stands') return nothing(hint.portion === 'moving' || hint.portion === 'settling' ? 'wait' : 'needs-person');
    if (job.by === 'loss') return { do: 'take-back', amount: job.amount };
    return job.from.length === 0 || job.amount <= 0 ? nothing('needs-person') : { do: 'pour-over', from: job.from, amount: job.amount };
  };

/** The pot onto the scale, then a portion out of it; whether it is one a person says. */
const portion: Ask = (hint, world, cables) => {
  if (hint.job != null) return pourJob(hint.job)(hint, world, cables);
  if (TO_SET_DOWN.has(hint.portion)) return bringVessel(hint, world, cables);
  if (hint.portion !== 'stands') return nothing(hint.portion === 'moving' || hint.portion === 'settling' ? 'wait' : 'needs-person');
  const held = hint.shelf.find(({ id }) => id === hint.vessel)?.contents ?? 0;
  return held > 0 ? { do: 'take-back', amount: Math.min(PORTION, held) } : nothing('needs-person');
};

/** What the chosen way out wants taken off, out of what stands there. */
const takeOut: Ask = (hint) => (hint.left !== null && hint.left > 0 ? { do: 'take-back', amount: hint.left } : nothing('needs-person'));

/** One answer a phase, so that a new phase does not compile until the maker knows what to do in it. */
const IN_PHASE: Readonly<Record<CuePhase, Ask>> = {
  idle: person,
  resume: putBack,
  gate: person,
  'choose-lot': person,
  'waiting-vessel': bringVessel,
  'strange-vessel': stranger,
  'settling-vessel': wait,
  ready: pour,
  pouring: pour,
  settling: wait,
  short: pour,
  offer: wait,
  ask: person,
  hold: person,
  over: takeBack,
  remedy: person,
  'take-out': takeOut,
  lift,
  question: person,
  away: person,
  returning: putBack,
  'no-weight': plugBack,
  blocked: unblock,
  'by-hand': person,
  temperatures: meet,
  joining: person,
  patterns: person,
  trace: person,
  trouble: person,
  'pouring-moulds': portion,
  done: person,
};

/** A bar onto the free scale, and off once it is taken; anything else there goes first. `null`: no bars are weighed. */
const weighBars = ({ bars = null }: SceneHint, world: World): Move | null => {
  if (bars === null || bars.phase === 'busy') return null;
  const { phase, role, bar } = bars;
  if (phase === 'put-on') return { do: 'set-down', vessel: bar.id, role };
  if (phase === 'ask' || phase === 'changed') return nothing('needs-person');
  const off = world.weighings[role]?.pan.standing != null && (phase === 'taken' || phase === 'done' || phase === 'empty');
  return off ? { do: 'lift', role } : nothing('wait');
};

export const nextMove = (hint: SceneHint | null, world: World, cables: Cables): Move =>
  hint === null ? nothing('needs-person') : (weighBars(hint, world) ?? IN_PHASE[hint.phase](hint, world, cables));
