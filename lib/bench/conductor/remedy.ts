import type { RemedyAnswer, RemedyCard, RemedyClash } from '#lib/work/batch/remedy/types';
import type { RemedyView } from '../conductor-types';
import type { RemedyMatter, RemedySeen } from '../cue';
import type { Unentered } from './memory';
import type { Choice, Scenery } from './stage';

/** Longer than this nobody waits for ways out to be worked out: what can be done without them is shown, ms. */
const PATIENCE_MS = 3_000;
/** As many changed lines as a card has room for. */
const LINES_SHOWN = 3;

/**
 * The cards of all ways out. Nothing while they are being worked out; `null` where nobody works them out, or not in time: then what can be
 * done without them is offered. The weight is the one the question was asked with, so that the answer is about what is entered.
 */
export const waysOut = (stage: Scenery, key: string, unentered: () => Unentered | null): readonly Choice[] | null => {
  const { remedy } = stage.view;
  if (remedy === undefined) return null;
  const before = stage.memory.asking?.key === key ? stage.memory.asking : null;
  const asking = { key, since: before?.since ?? stage.now, at: stage.now, unentered: before?.unentered ?? unentered() };
  stage.memory.asking = asking;
  if (remedy.key !== key || remedy.answer === null) return stage.now - asking.since > PATIENCE_MS ? null : [];
  const { answer } = remedy;
  return answer.cards.map((card) => wayOut(stage, card, answer, remedy, asking.unentered));
};

const wayOut = (stage: Scenery, card: RemedyCard, answer: RemedyAnswer, { facts }: RemedyView, unentered: Unentered | null): Choice => ({
  card: {
    code: card.kind,
    params: card.params,
    hold: card.held,
    enabled: card.enabled,
    why: card.whyNot?.code ?? null,
    remedy: seen(stage, card, answer),
  },
  take: () => {
    if (unentered !== null)
      stage.wants.push({ kind: 'accept', body: { ...unentered, how: card.held ? 'held' : 'go-on', part: false, shortIsFine: false } });
    const others = answer.cards.filter((other) => other !== card);
    const { version, solved } = answer;
    stage.wants.push({ kind: 'choose-remedy', body: { card, others, solved, version, facts, held: card.held } });
  },
});

const firstOf = (...found: readonly (readonly RemedyClash[] | undefined)[]): readonly RemedyClash[] =>
  found.find((one) => one !== undefined && one.length > 0) ?? [];

/** Of a card itself; of one that keeps every limit there are none, whatever stands against the others. */
const clashesIn = ({ whyNot, leaves, enabled, kind }: RemedyCard, { clashes }: RemedyAnswer): readonly RemedyClash[] =>
  firstOf(whyNot?.clashes, leaves, enabled && kind !== 'stop' ? [] : clashes);

/** What a limit is about, and what a card makes of it. */
const matterOf = ({ figures }: RemedyCard, { limit, line }: RemedyClash): RemedyMatter | null => {
  const told = (of: RemedyMatter['of'], value: number | null | undefined): RemedyMatter | null =>
    value === null || value === undefined ? null : { of, line: of === 'share' ? line : null, value };
  if (limit.startsWith('lye-')) return told('lye', figures?.lye);
  if (limit === 'moulds') return told('moulds', figures?.full);
  if (limit === 'fragrance') return told('fragrance', figures?.fragrance);
  return limit.startsWith('share-') ? told('share', figures?.shares.find((one) => one.line === line)?.ppm) : null;
};

/** Carrying on tells what is wrong; every card, what it makes of just that. */
const mattersIn = (card: RemedyCard, { cards }: RemedyAnswer): readonly RemedyMatter[] => {
  const carryOn = cards.find(({ kind }) => kind === 'carry-on');
  return firstOf(carryOn?.whyNot?.clashes, carryOn?.leaves).flatMap((clash) => {
    const matter = matterOf(card, clash);
    return matter === null ? [] : [matter];
  });
};

/** What a card shows of it: the rest stays with the server. */
const seen = ({ batch }: Scenery, card: RemedyCard, answer: RemedyAnswer): RemedySeen => {
  const superfat = card.figures?.superfat ?? null;
  return {
    recommended: card.recommended?.why ?? null,
    clashes: clashesIn(card, answer),
    superfat: superfat === null ? null : { value: superfat.value, half: Math.round((superfat.high - superfat.low) / 2) },
    matters: mattersIn(card, answer),
    full: card.figures?.full ?? null,
    added: card.added,
    taken: card.taken,
    lines: card.lines
      .filter(({ line, change, pour }) => pour > 0 && (change !== 0 || batch.lines[line]?.status === 'closed'))
      .slice(0, LINES_SHOWN)
      .map(({ line, target }) => ({ line, from: batch.lines[line]?.plan.target ?? target, to: target })),
    cautions: card.cautions,
    ownBatch: card.ownBatch ?? [],
    solved: answer.solved,
  };
};
