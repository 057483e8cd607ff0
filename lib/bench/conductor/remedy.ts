import { mg } from '#lib/units/mass';
import type { RemedyAnswer, RemedyCard, RemedyClash } from '#lib/work/batch/remedy/types';
import type { RemedyView } from '../conductor-types';
import type { RemedyMatter, RemedySeen } from '../cue';
import type { Unentered } from './memory';
import { choice } from './choices';
import type { Choice, Scenery, Words } from './stage';

/** Longer than this nobody waits for ways out to be worked out: what can be done without them is shown, ms. */
const PATIENCE_MS = 3_000;
/** As many changed lines as a card has room for. */
const LINES_SHOWN = 3;

/**
 * The cards of all ways out. Nothing while they are being worked out; `null` where nobody works them out, or not in time: then what can be
 * done without them is offered. The weight is the one the question was asked with, so that the answer is about what is entered.
 */
export const waysOut = (stage: Scenery, key: string, unentered: () => Unentered | null): Ways | null => {
  const { remedy } = stage.view;
  if (remedy === undefined) return null;
  const before = stage.memory.asking?.key === key ? stage.memory.asking : null;
  const asking = { key, since: before?.since ?? stage.now, at: stage.now, unentered: before?.unentered ?? unentered() };
  stage.memory.asking = asking;
  if (remedy.key !== key || remedy.answer === null) return stage.now - asking.since > PATIENCE_MS ? null : { choices: [] };
  const { answer } = remedy;
  const choose = (card: RemedyCard): void => chosen(stage, card, answer, remedy, asking.unentered);
  const { stock } = stage.memory;
  const stands = stock !== null && stock.version === stage.batch.version && stage.now - stock.at <= PATIENCE_MS;
  const held = stands ? answer.cards.find(({ id, enabled }) => enabled && id === stock.card) : undefined;
  // A last digit that flickers asks for ways out anew: the question stands meanwhile.
  stage.memory.stock = held === undefined ? null : { card: held.id, version: stage.batch.version, at: stage.now };
  if (held !== undefined) return enough(stage, held, remedy, () => choose(held));
  return { choices: answer.cards.map((card) => wayOut(stage, card, answer, remedy, () => choose(card))) };
};

/** Cards. With a way back they are a question about one of the ways out. */
export interface Ways {
  readonly choices: readonly Choice[];
  readonly back?: () => void;
  readonly say?: Words;
}

/** Lines that are in, of which a card wants more than anybody has said there is. */
const unstated = ({ batch, memory }: Scenery, { lines, cautions }: RemedyCard, { facts }: RemedyView): RemedyCard['lines'] =>
  cautions.includes('stock-not-known')
    ? lines.filter(({ line, pour }) => {
        const isIn = (batch.lines[line]?.actual ?? 0) > 0 || memory.asking?.unentered?.line === line;
        return pour > 0 && isIn && facts.stock[line] === undefined;
      })
    : [];

/** Of so many lines it is asked one by one. */
const MOST_ASKED = 4;

/** Whether there is enough for a way out, by the same three intents: it is taken, or the ways out are worked out again without more of that. */
const enough = (stage: Scenery, card: RemedyCard, remedy: RemedyView, take: () => void): Ways => {
  const named = unstated(stage, card, remedy).map(({ line, pour }) => {
    const material = stage.batch.lines[line]?.plan.material.name ?? '';
    return { line, params: { material, mass: pour } };
  });
  const [first] = named;
  const back = (): void => void (stage.memory.stock = null);
  const short = named.slice(0, MOST_ASKED).map(({ line, params }) =>
    choice('stock-short', params, true, () => {
      back();
      const body = { what: 'stock', line, vessel: null, mass: mg(0), beside: true, held: true } as const;
      stage.wants.push({ kind: 'state-wrong', body });
    }),
  );
  const params = { count: named.length, ...first?.params };
  const say = { key: `stock ${card.id} ${stage.batch.version}`, code: 'stock', params } as const;
  return { choices: [choice('stock-enough', params, true, take), ...short], back, say };
};

const wayOut = (stage: Scenery, card: RemedyCard, answer: RemedyAnswer, view: RemedyView, choose: () => void): Choice => ({
  card: {
    code: card.kind,
    params: card.params,
    hold: card.held,
    enabled: card.enabled,
    why: card.whyNot?.code ?? null,
    remedy: seen(stage, card, answer),
  },
  take: () => {
    if (unstated(stage, card, view).length === 0) choose();
    else stage.memory.stock = { card: card.id, version: stage.batch.version, at: stage.now };
  },
});

const chosen = (stage: Scenery, card: RemedyCard, answer: RemedyAnswer, { facts }: RemedyView, unentered: Unentered | null): void => {
  stage.memory.stock = null;
  if (unentered !== null)
    stage.wants.push({ kind: 'accept', body: { ...unentered, how: card.held ? 'held' : 'go-on', part: false, shortIsFine: false } });
  const others = answer.cards.filter((other) => other !== card);
  const { version, solved } = answer;
  stage.wants.push({ kind: 'choose-remedy', body: { card, others, solved, version, facts, held: card.held } });
};

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
