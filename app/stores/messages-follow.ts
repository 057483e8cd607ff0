import type { FollowedGone } from '#lib/protocol/lots';
import type { Complaint } from '#lib/work/lots/complaint';
import { capital, counted, inWords } from '#lib/words/words';

const bars = (count: number): string => counted(count, 'bar');

/** Words of following lots and bars, of recalls and complaints. */
export const followMessages = {
  nav: { name: 'Of the stores', follow: 'Follow a lot or a bar', recall: 'Recall', complaints: 'Complaints', stores: 'Back to the stores' },
  title: 'Follow a lot',
  lead: 'From a lot to the batches, the bars and who has them; from a bar’s mark back to lots and weights.',
  ask: {
    title: 'What to follow',
    lot: 'A lot',
    noLot: 'of no lot',
    choose: 'choose one',
    mark: 'Or the mark on a bar or batch',
    markHint: '26-11/1',
    go: 'Follow it',
  },
  used: (mark: string, mass: string, batches: number) =>
    batches === 0 ? `Nothing was weighed from ${mark} yet.` : `${mass} of ${mark} went into ${counted(batches, 'batch', 'batches')}.`,
  once: (mark: string) =>
    `Their records named ${mark} until somebody put another lot in its place. They are not counted above: make sure before you leave them out.`,
  usedWrap: (what: string, pieces: number, batches: number) =>
    batches === 0
      ? `Nothing was wrapped in ${what} yet.`
      : `${capital(counted(pieces, 'piece'))} of ${what} went around bars of ${counted(batches, 'batch', 'batches')}. Which bars of a lot bear it nobody wrote: all of them stand here.`,
  around: (what: string, pieces: number) => `Around them: ${what}, ${counted(pieces, 'piece')}.`,
  ofLot: 'Where it went',
  ofLotNote: 'Weights as they were weighed, and put right where somebody did.',
  ofWrapNote: 'By what was written when they were wrapped.',
  caption: 'Batches, bars and who has them',
  heads: { batch: 'batch', made: 'begun', mass: 'of this lot', bars: 'bars', where: 'where they are' },
  noBars: 'no bars begun',
  shelf: (count: number, place: string | null) => `${bars(count)} on the shelf${place === null ? '' : ` (${place})`}`,
  away: (count: number) => `${bars(count)} at a market`,
  aside: (count: number) => `${bars(count)} given back and kept apart`,
  retained: (count: number, place: string | null) => `${counted(count, 'bar')} kept back${place === null ? '' : `, ${place}`}`,
  noRetained: 'none kept back',
  held: (why: string) => `held: ${why}`,
  gone: {
    sold: (count: number, to: string, day: string) =>
      count < 0 ? `${bars(-count)} given back by ${to}, ${day}` : `${bars(count)} sold to ${to}, ${day}`,
    given: (count: number, to: string, day: string) =>
      count < 0 ? `${bars(-count)} given back by ${to}, ${day}` : `${bars(count)} given to ${to}, ${day}`,
    spoiled: (count: number, _to: string, day: string) => `${bars(count)} spoiled, ${day}`,
  } satisfies Record<FollowedGone['kind'], (count: number, to: string, day: string) => string>,
  erased: (id: string) => `somebody whose name was erased (${id})`,
  unknown: 'somebody not written down',
  back: {
    title: 'What is in it',
    note: 'Back from the bar to what was weighed.',
    of: (mark: string, name: string) => `${mark} is of the batch ${name}.`,
    twice: (mark: string, count: number) => `${mark} was given to ${counted(count, 'batch', 'batches')}. All of them stand below.`,
    unknown: (mark: string) => `No bars bear the mark ${mark}. What its beginning names stands below, whole: read the label again.`,
    heads: { lot: 'lot', material: 'material', mass: 'weighed', supplier: 'from', until: 'until' },
    caption: 'Lots in this batch',
    unstated: (what: string, mass: string) => `${what}: ${mass} without a lot.`,
    weights: 'Every weight',
    weightHeads: { material: 'material', actual: 'weighed', lots: 'lots' },
  },
  recall: {
    title: 'Recall',
    lead: 'Pick the lot of a material, a wrap, a box or a label that something is wrong with. What it touched stands below, to be printed and worked through.',
    step: { lot: 'The lot', touched: 'What it touched', list: 'The list' },
    /** `kept`: samples kept back. */
    sums: (batches: number, made: number, { shelf, kept, gone }: Readonly<Record<'shelf' | 'kept' | 'gone', number>>) =>
      `${capital(counted(batches, 'batch', 'batches'))}, ${bars(made)} made: ${bars(shelf)} still here${kept === 0 ? '' : `, ${inWords(kept)} kept back`}, ${bars(gone)} gone.`,
    apart: 'Set the lot apart',
    apartWhy: 'Why it is set apart',
    apartWrap: 'Put away what is left of it: nothing here keeps a wrap from being used.',
    isApart: 'The lot is set apart: the bench refuses it.',
    hold: 'Hold its bars',
    holdWhy: (mark: string) => `Recall of lot ${mark}`,
    holding: (count: number) => `${bars(count)} on the shelf can be sold until they are held.`,
    isHeld: 'All its bars are held.',
    print: 'Print the list',
    tell: 'Tell each of these, and tick when done',
    nobody: 'Nobody outside has any of it.',
    done: 'told, when',
  },
  complaints: {
    title: 'Complaints',
    lead: 'One act keeps what was said, holds what is left of that batch, and shows where it came from.',
    add: 'A complaint',
    note: 'Do not write names here: who complained stands where names can be erased.',
    mark: 'Mark on the bar',
    day: 'Day it happened, year-month-day',
    what: 'What happened',
    action: 'What was done',
    reaction: 'Did anybody’s skin or body react?',
    reactions: { none: 'no', slight: 'slight', serious: 'serious' } satisfies Record<Complaint['reaction'], string>,
    report:
      'A serious reaction may have to be reported to the authority, in some places within days: look at the rules where you sell, and keep a bar for them.',
    keep: 'Keep it and hold its bars',
    anyway: 'Keep it all the same, and hold the whole batch',
    notThere: (mark: string) => `${mark} (no such bars)`,
    kept: (held: readonly string[]) =>
      held.length === 0
        ? 'Kept. Nothing of that batch is on the shelf as bars yet: begin none before this is cleared.'
        : `Kept. Held now: ${held.join(', ')}.`,
    print: 'Print the trace',
    retained: 'Kept back for looking at:',
    list: 'What was said before',
    none: 'Nobody has complained.',
    heads: { day: 'day', mark: 'mark', what: 'what happened', action: 'what was done', reaction: 'reaction', held: 'held' },
    caption: 'Complaints, newest first',
    badDay: 'A day as 2026-11-03 belongs here.',
    missing: 'Nothing stands here yet.',
    trace: 'Follow it',
  },
} as const;
