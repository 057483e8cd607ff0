import type { LineId, VesselId } from '#lib/units/id';
import type { Brought, Entry, Weighed } from '../entries';
import { own } from '../own';
import type { LinePlan } from '../plan';
import type { BatchState, Contribution, VesselState } from '../state';
import { crossOutPour } from './pouring';
import { crossOutPortion } from './portions';
import {
  changeContributions,
  changeVessel,
  consume,
  contribute,
  contributionOf,
  hold,
  ofEntry,
  offPan,
  takeBack,
  takeOut,
  type Evolve,
} from './parts';

/** One settled reading, by which two weighings know that they share it. */
const readingOf = ({ boot }: Entry, episode: number): string => `${boot}/${episode}`;

/** What the scale said, and whether the zero is a reading that the record knows. */
export const weighedOf = (state: BatchState, entry: Entry, weighed: Weighed): NonNullable<Contribution['weighed']> => {
  const { instrument, gross, zero, step, episode, check } = weighed;
  const pan = own(state.pans, instrument);
  const readings = { gross: readingOf(entry, episode), zero: pan?.zero === zero ? pan.reading : null };
  return { instrument, gross, zero, step, episode, checked: check !== null, readings };
};

export const vesselSet: Evolve<'vessel-set'> = (state, entry) => {
  const { vessel, line, instrument, gross, empty, zero, episode } = entry.body;
  const cleared = offPan(state, vessel);
  const placed: BatchState = {
    ...cleared,
    pans: {
      ...cleared.pans,
      [instrument]: { vessel, line, zero: zero ?? gross, reading: zero === undefined ? readingOf(entry, episode) : null },
    },
  };
  return consume(
    changeVessel(placed, vessel, (before) => ({ empty: empty ?? before.empty })),
    entry,
    episode,
  );
};

/** A vessel in which something was dissolved, joined or portioned stays so; any other begins or goes on to fill. */
const filledState = (vessel: VesselState, plan: LinePlan | undefined): VesselState['state'] => {
  if (vessel.state === 'dissolved' || vessel.state === 'joined' || vessel.state === 'portioned') return vessel.state;
  if (plan?.material.class !== 'hydroxide') return 'filling';
  return plan.inSolution === true ? 'dissolved' : 'dry';
};

const lotIn = (lot: Contribution['lot'] | null): Pick<Contribution, 'lot'> => (lot == null ? {} : { lot });

const pour = (state: BatchState, line: LineId, one: Contribution, standing: VesselState['standing']): BatchState => {
  const plan = own(state.lines, line)?.plan;
  const poured = hold(contribute(state, line, one), one.vessel, [{ line, mass: one.net }]);
  return changeVessel(poured, one.vessel, (vessel) => ({ state: filledState(vessel, plan), standing, recount: null }));
};

export const weightAccepted: Evolve<'weight-accepted'> = (state, entry) => {
  const { line, vessel, weighed, how, lot } = entry.body;
  const { instrument, gross, episode } = weighed;
  const one: Contribution = {
    ...ofEntry(entry),
    kind: 'pour',
    net: weighed.net,
    vessel,
    weighed: weighedOf(state, entry, weighed),
    ...lotIn(lot),
    how,
    provisional: true,
  };
  // By its loss a bottle stands on the pan, not the vessel: what the vessel weighs is not known from it.
  const standing = own(state.lines, line)?.plan.mode === 'loss' ? null : { instrument, gross };
  return consume(pour(state, line, one, standing), entry, episode);
};

export const weightTyped: Evolve<'weight-typed'> = (state, entry) => {
  const { line, vessel, typed, lot } = entry.body;
  const one: Contribution = {
    ...ofEntry(entry),
    kind: 'typed',
    net: typed.net,
    vessel,
    weighed: null,
    typed: { text: typed.text, unit: typed.unit },
    ...lotIn(lot),
    how: 'typed',
  };
  const poured = pour(offPan(state, vessel), line, one, null);
  return { ...poured, counts: { ...poured.counts, byHand: poured.counts.byHand + 1 } };
};

/** What another batch set aside lies in its vessel from the first entry on. */
export const brought = (state: BatchState, entry: Entry, { vessel, shares, weighed }: Brought): BatchState => {
  const poured = shares.reduce(
    (before, { line, mass, lot }) =>
      contribute(before, line, {
        ...ofEntry(entry),
        kind: 'brought',
        net: mass,
        vessel,
        weighed: weighed === undefined ? null : weighedOf(state, entry, weighed),
        ...lotIn(lot),
        how: 'held',
      }),
    state,
  );
  const filled = changeVessel(hold(poured, vessel, shares), vessel, () => ({ state: 'filling' }));
  return weighed === undefined ? filled : consume(filled, entry, weighed.episode);
};

export const weighedBack: Evolve<'weighed-back'> = (state, entry) => {
  const { line, weighed, shares = [{ line, mass: weighed.net }], out = [] } = entry.body;
  // What was said to lie in the jug has been weighed now: it counts once.
  const leftInJug = state.leftInJug.filter((one) => shares.every((share) => share.line !== one.line));
  const reduced = takeBack({ ...state, leftInJug }, entry, 'weigh-back', weighedOf(state, entry, weighed), shares);
  return consume(takeOut(reduced, out), entry, weighed.episode);
};

const settled = (state: BatchState, vessel: VesselId): BatchState =>
  changeContributions(state, (one) => one.vessel === vessel && one.provisional, { provisional: false });

export const vesselLifted: Evolve<'vessel-lifted'> = (state, { body }) => offPan(settled(state, body.vessel), body.vessel);

export const weightQuestioned: Evolve<'weight-questioned'> = (state, { body }) => ({ ...state, question: body });

export const questionAnswered: Evolve<'question-answered'> = (state, { body }) => {
  const { question } = state;
  const answered: BatchState = { ...state, question: null };
  const vessel = contributionOf(state, body.entry)?.vessel;
  if (question === null || vessel === undefined || body.answer === 'strike') return answered;
  // A person vouches for the weight: from now on the vessel is expected to weigh what it weighed when they said so.
  return changeVessel(settled(answered, vessel), vessel, ({ standing }) => ({
    standing: standing === null ? null : { ...standing, gross: question.now },
  }));
};

export const struck: Evolve<'struck'> = (state, entry) => {
  const { body } = entry;
  const vessel = contributionOf(state, body.entry)?.vessel;
  const crossed = takeOut(
    changeContributions(state, (one) => one.entry === body.entry, { struck: entry.id, provisional: false }),
    body.out,
  );
  const { recount } = body;
  const again = recount === undefined ? null : { line: recount.line, zero: recount.zero };
  const freed = vessel === undefined ? crossed : changeVessel(offPan(crossed, vessel), vessel, () => ({ standing: null, recount: again }));
  return {
    ...crossOutPortion(freed, body.entry),
    pour: crossOutPour(state.pour, entry),
    over: state.over?.entry === body.entry ? null : state.over,
    question: state.question?.entry === body.entry ? null : state.question,
  };
};

export const overAnswered: Evolve<'over-answered'> = (state) => ({ ...state, over: null });
