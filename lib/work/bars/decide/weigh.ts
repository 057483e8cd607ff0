import { alike } from '../../batch/alike';
import { refusal } from '../../batch/decide/decision';
import type { Refusal } from '../../batch/commands';
import { own } from '../../batch/own';
import { mg } from '#lib/units/mass';
import type { Milligrams } from '#lib/units/mass';
import type { BarsCommandOf } from '../commands';
import type { BarsState } from '../state';
import { allow, deny, draft, refuse, type BarsDecider } from './decision';

/** mg. No bar of soap is heavier; a log on the pan is none. */
const HEAVIEST_BAR = 5_000_000;

type Weigh = BarsCommandOf<'weigh'>;

/** Used up once, by whatever lot. */
const usedUp = (state: BarsState, { boot, observation }: Weigh, episode: number): boolean =>
  episode <= observation.spent || (boot === state.consumed.boot && episode <= state.consumed.episode);

const notFromScale = ({ observation, body: { weighed } }: Weigh): Refusal | null => {
  const { instrument, gross, zero, net, episode, step } = weighed;
  const { settled, capacity = {}, armed } = observation;
  if (armed !== null) return refusal('wrong-state', { status: 'weighing', batch: armed });
  const agrees = settled !== null && settled.instrument === instrument && settled.episode === episode;
  if (!agrees || !alike(settled.gross, gross, mg(2 * step)) || net !== gross - zero) return refusal('not-settled', { instrument, episode });
  const most = own<string, Milligrams>(capacity, instrument);
  return most !== undefined && gross > most ? refusal('over-capacity', { instrument, gross, capacity: most }) : null;
};

const notABar = ({ cut }: BarsState, bar: number | null, net: Milligrams): Refusal | null => {
  if (cut === null) return refusal('wrong-order', { before: 'cut' });
  if (bar !== null && (bar < 1 || bar > cut.count + cut.testers)) return refusal('no-such', { what: 'bar', id: String(bar) });
  return net <= 0 || net > HEAVIEST_BAR ? refusal('bad-number', { what: 'net' }) : null;
};

/** As for a check at the bench: further off than both, something else lies there. Common practice, no source. */
const UNLIKELY = { ofKnown: 0.05, divisions: 20 } as const;

const notAMass = ({ bar, weighed: { net, step, instrument }, known = mg(0) }: Weigh['body']): Refusal | null => {
  if (bar !== null || known <= 0) return refusal('bad-number', { what: 'known' });
  const likely = Math.abs(net - known) <= Math.max(UNLIKELY.ofKnown * known, UNLIKELY.divisions * step);
  return likely ? null : refusal('check-unlikely', { instrument, nominal: known, shown: net });
};

/** What a scale says of one bar, or of a known mass: settled, of this moment, and used once. */
export const weigh: BarsDecider<'weigh'> = (state, command) => {
  const { bar, for: purpose, weighed, how, known } = command.body;
  if (usedUp(state, command, weighed.episode)) return refuse('already-done', { episode: weighed.episode });
  const no = notFromScale(command) ?? (purpose === 'mass' ? notAMass(command.body) : notABar(state, bar, weighed.net));
  if (no !== null) return deny(no);
  const body = { bar, for: purpose, weighed, how };
  return allow(draft('bars-weighed', purpose === 'mass' && known !== undefined ? { ...body, known } : body));
};

export const typeWeight: BarsDecider<'type-weight'> = (state, { body }) => {
  const no = notABar(state, body.bar, body.typed.net);
  return no === null ? allow(draft('bars-weight-typed', body)) : deny(no);
};
