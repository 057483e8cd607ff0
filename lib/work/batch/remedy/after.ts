import { as, type EntryId } from '#lib/units/id';
import { mg, type Milligrams } from '#lib/units/mass';
import type { Draft, EntryHead } from '../entries';
import { evolve } from '../evolve/index';
import { own } from '../own';
import type { LinePlan } from '../plan';
import type { BatchState } from '../state';
import type { RemedyAct, RemedyCard, RemedyLine } from './types';

type Done = Pick<RemedyCard, 'lines' | 'acts'>;

/** The plans that a card's lines become. */
const plansAfter = (state: BatchState, lines: readonly RemedyLine[]): readonly LinePlan[] =>
  lines.flatMap(({ line, target, tolerance, upper }) => {
    const plan = own(state.lines, line)?.plan;
    return plan === undefined ? [] : [{ ...plan, target, tolerance, upper }];
  });

/** What one act takes out, by line. */
const sharesOf = (act: RemedyAct): readonly { readonly line: RemedyLine['line']; readonly mass: Milligrams }[] =>
  'shares' in act ? act.shares : [{ line: act.line, mass: act.mass }];

const ppmOf = (mass: number, contents: number): number => (contents <= 0 ? 0 : Math.round((1e6 * mass) / contents));

const withdrawal = (state: BatchState, act: RemedyAct): readonly Draft[] => {
  if (act.kind === 'finish-pour') return [];
  const contents = own(state.vessels, act.vessel)?.contents ?? mg(0);
  return [
    {
      kind: 'withdrawn',
      body: {
        vessel: act.vessel,
        ppm: 'ppm' in act ? act.ppm : ppmOf(act.mass, contents),
        mass: act.mass,
        to: act.kind === 'leave' ? 'bottle' : act.to,
        shares: sharesOf(act),
        source: 'by-hand',
      },
    },
  ];
};

/**
 * What taking a card enters of its lines and acts: the lines move first, those that get more are opened again, then what leaves leaves.
 * What a person answered and why is not in it.
 */
export const remedyDrafts = (state: BatchState, { lines, acts }: Done): readonly Draft[] => [
  ...(lines.length === 0 ? [] : [{ kind: 'replanned', body: { lines: plansAfter(state, lines), reason: 'remedy' } } as const]),
  ...lines.flatMap(({ line, pour }): readonly Draft[] =>
    pour > 0 && own(state.lines, line)?.status === 'closed' ? [{ kind: 'line-reopened', body: { line } }] : [],
  ),
  ...acts.flatMap((act) => withdrawal(state, act)),
];

/**
 * The batch as it would stand when a card's entries are in, nothing poured yet: what is to come counts at its new targets. What lay in a
 * jug is poured on or left there by the card's acts: either way it lies there no more.
 */
export const afterRemedy = (state: BatchState, card: Done): BatchState =>
  withDrafts({ ...state, leftInJug: [] }, remedyDrafts(state, card));

/** The batch as it would stand when drafts are in; who enters them, and when, does not count. */
export const withDrafts = (state: BatchState, drafts: readonly Draft[]): BatchState =>
  drafts.reduce<BatchState>((before, draft) => evolve(before, { ...wouldBe(before, before.version + 1), ...draft }), state);

/** Head of an entry that nobody has entered. */
export const wouldBe = ({ id, realm, startedBy, boot }: BatchState, version: number): EntryHead => ({
  // Each by itself: what two acts may be off by is not one doubt.
  id: as<EntryId>(`remedy-${version}`),
  batch: id,
  version,
  realm,
  v: 1,
  by: startedBy,
  via: 'server',
  intent: null,
  boot,
  mono: 0,
  wall: 0,
  offsetMin: 0,
});
