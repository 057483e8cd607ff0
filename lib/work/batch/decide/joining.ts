import type { VesselId } from '#lib/units/id';
import { milliCelsius } from '#lib/units/temperature';
import type { Command } from '../commands';
import type { HoldReason } from '../entries';
import { joiningHolds, lyeMade, withTyped, type JoiningHold } from '../joining';
import { superfatThen } from '../lye-heavy';
import { own } from '../own';
import type { BatchState } from '../state';
import { allow, draft, refuse, type Decider } from './decision';
import { batterVessel } from './vessels';

/** Hottest and coldest a typed temperature may be: beyond boiling lye or a winter shed it is a slip of the finger. */
const TYPED_FROM = milliCelsius(-30_000);
const TYPED_TO = milliCelsius(150_000);

const view = (state: BatchState, { observation, boot, mono }: Command) => {
  const temps = withTyped(state, { lye: observation.lye, oils: observation.oils, milk: observation.milk }, boot, mono);
  return { temps, holds: joiningHolds(state, temps, observation.lyeSeen) };
};

export const noteTemperature: Decider<'note-temperature'> = (state, { body, role }) => {
  const { use, value, why, source } = body;
  if (state.status === 'closed' && why !== 'peak') return refuse('wrong-state', { status: state.status });
  // Measured, by the program: of lye until it is joined, of soap in its mould from then on.
  const peaks = state.joined === null ? use === 'lye' && lyeMade(state) : use === 'mould';
  if (why === 'peak' && (role !== 'program' || !peaks)) return refuse('wrong-state', { status: state.status });
  if (source === undefined && role === 'program') return refuse('not-yours', { role });
  if (value < TYPED_FROM || value > TYPED_TO) return refuse('bad-number', { value });
  return allow(draft('temperature-noted', { use, value, why, source: source ?? 'by-hand' }));
};

const degrees = (value: number | null) => (value === null ? null : milliCelsius(value));

export const override: Decider<'override'> = (state, command) => {
  const { reason, held, note } = command.body;
  if (state.joined !== null) return refuse('wrong-state', { status: state.status });
  const standing = view(state, command).holds.find((hold) => hold.reason === reason && hold.level === 'hold');
  if (standing === undefined || !standing.overridable) return refuse('no-such', { what: 'hold', id: reason });
  if (standing.overridden) return refuse('already-done', { reason });
  if (!held) return refuse('needs-hold', { reason });
  const superfat = reason === 'may-be-lye-heavy' ? superfatThen(state) : null;
  if (superfat !== null) return allow(draft('override', { reason, value: null, limit: null, note, superfat }));
  return allow(draft('override', { reason, value: degrees(standing.value), limit: degrees(standing.limit), note }));
};

/** What is poured together: the lye, and oils still standing in other vessels than the one the batter is made in. */
const pouredTogether = (state: BatchState, into: VesselId | null): readonly VesselId[] =>
  Object.values(state.vessels)
    .filter(({ plan, contents }) => plan.id !== into && plan.use !== 'aside' && contents > 0)
    .map(({ plan }) => plan.id);

const isOverride = (hold: JoiningHold): hold is JoiningHold & { readonly reason: HoldReason } => hold.overridable && hold.overridden;

export const join: Decider<'join'> = (state, command) => {
  if (state.joined !== null) return refuse('already-done', { status: state.status });
  const { temps, holds } = view(state, command);
  const against = holds.find((hold) => hold.level === 'hold' && !hold.overridden);
  if (against?.reason === 'lye-heavy') return refuse('lye-heavy');
  if (against !== undefined) {
    const { reason, value, limit } = against;
    return refuse('joining-held', { reason, ...(value === null ? {} : { value }), ...(limit === null ? {} : { limit }) });
  }
  if (!command.body.held) return refuse('needs-hold');
  const into = batterVessel(state)?.plan.id ?? null;
  return allow(
    draft('joined', {
      lye: temps.lye,
      oils: temps.oils,
      overrides: holds.filter(isOverride).map((hold) => hold.reason),
      byHand: temps.byHand,
      from: pouredTogether(state, into),
      into,
      ...(command.body.course === undefined ? {} : { course: command.body.course }),
    }),
  );
};

/** The probe of the oils stands in the batter once the lye is poured into them. */
export const stampTrace: Decider<'stamp-trace'> = (state, { body, observation, boot, mono }) => {
  const typed = own(state.typedTemperatures, 'batter');
  const byHand = typed !== undefined && typed.boot === boot && mono - typed.mono <= 60_000 ? typed.value : null;
  return allow(draft('trace-stamped', { mark: body.mark, batter: byHand ?? observation.batter ?? observation.oils, note: body.note }));
};
