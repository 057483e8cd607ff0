import type { LiveProbe, LiveScale } from '#lib/protocol/live';
import type { BatchState } from '#lib/work/batch/index';
import type { LiveState } from '../../_live/store';
import type { Show } from '#lib/words/quantities';
import { messages } from '../messages';

/** The batch that still wants something, parked ones too. */
export const onBench = ({ batch }: Pick<LiveState, 'batch'>): BatchState | null =>
  batch === null || batch.status === 'closed' || batch.status === 'abandoned' ? null : batch;

const isFresh = (one: LiveScale | LiveProbe): boolean => one.link === 'live' && one.freshness === 'fresh' && one.suspect === null;

const all = ({ frame }: Pick<LiveState, 'frame'>): readonly (LiveScale | LiveProbe)[] => [
  ...(frame?.scales ?? []),
  ...(frame?.probes ?? []),
];

const benchSentence = (state: LiveState): string => {
  const { lead } = messages;
  const realm = state.standing?.realm ?? 'real';
  const batch = onBench(state);
  if (batch === null) return lead.idle(realm);
  const { name } = batch.plan.formula;
  if (batch.status === 'parked') return lead.parked(name, realm);
  if (state.frame?.cue.phase === 'resume') return lead.resume(name, realm);
  if (batch.status === 'joined') return lead.joined(name, realm);
  if (batch.open === null) return lead.waiting(name, realm);
  const lines = Object.values(batch.lines);
  const next = batch.lines[batch.open]?.plan.material.name ?? null;
  return lead.weighing(name, realm, lines.filter(({ status }) => status === 'closed').length, lines.length, next);
};

const truthSentence = (state: LiveState): string => {
  const { lead } = messages;
  const instruments = all(state);
  const not = instruments.filter((one) => !isFresh(one)).map(({ name }) => name);
  if (instruments.length === 0) return lead.noInstruments;
  if (not.length > 0) return lead.someNot(not);
  return instruments.length === 1 ? lead.oneFresh : lead.allFresh(instruments.length);
};

/** The two sentences that say what matters now, as one primitive. */
export const leadOf = (state: LiveState): string => {
  if (state.link === 'connecting') return messages.lead.looking;
  if (state.link === 'down' || state.stale || state.frame === null) return messages.lead.unknown;
  return `${benchSentence(state)} ${truthSentence(state)}`;
};

const whyNot = (one: LiveScale | LiveProbe, show: Show): string => {
  const { instruments } = messages;
  const state =
    one.link === 'live'
      ? one.suspect === null
        ? instruments[one.freshness === 'late' ? 'late' : 'lost']
        : instruments.suspect
      : instruments.links[one.link];
  if (one.last === null) return state;
  const value = 'gross' in one.last ? show.mass(one.last.gross, 'division' in one ? one.division : null) : show.temperature(one.last.value);
  return `${state}, ${instruments.lastMass(value, instruments.age(Math.round(one.last.age / 1000)))}`;
};

/** The instruments in one line. */
export const instrumentsOf =
  (show: Show) =>
  (state: LiveState): string => {
    const { instruments } = messages;
    if (state.link !== 'up' || state.stale || state.frame === null) return instruments.unknown;
    const list = all(state);
    if (list.length === 0) return instruments.none;
    const fresh = list.filter(isFresh).map(({ name }) => name);
    const rest = list.filter((one) => !isFresh(one)).map((one) => instruments.not(one.name, whyNot(one, show)));
    return [...(fresh.length === 0 ? [] : [instruments.fresh(fresh)]), ...rest].join(' ');
  };
