import type { RemedyCard, RemedyKind, RemedyWhy } from './types';

const MOST_CARDS = 5;

const isInside = ({ enabled, leaves }: RemedyCard): boolean => enabled && leaves.length === 0;

/** Least superfat that its doubt leaves, ppm, by the worse of working value and mean; what nobody could work out is no better than any. */
const leastOf = ({ figures }: RemedyCard): number => {
  const superfat = figures?.superfat ?? null;
  return superfat === null ? 0 : Math.min(superfat.low, superfat.value - (superfat.high - superfat.low) / 2);
};

/** Even with all doubt about the values it is not lye-heavy. */
export const isSafe = (card: RemedyCard): boolean => leastOf(card) >= 0;

/** What is tried first, and why it comes first when it can be done. */
const FIRST: readonly { readonly kinds: readonly RemedyKind[]; readonly why: RemedyWhy }[] = [
  { kinds: ['finish-pour'], why: 'finish-what-was-begun' },
  { kinds: ['carry-on'], why: 'inside-every-limit' },
  { kinds: ['lift-out'], why: 'still-solid' },
  { kinds: ['pour-again'], why: 'back-to-plan' },
  { kinds: ['back-to-bottle', 'take-out'], why: 'in-its-own-vessel' },
  { kinds: ['use-less', 'use-more', 'add', 'least-change'], why: 'least-change' },
  { kinds: ['pour-off', 'scoop', 'scale', 'split'], why: 'least-change' },
];

/** First what no doubt makes lye-heavy; where there is nothing of the kind, what is the least likely to be, and said to be so. */
const choose = (cards: readonly RemedyCard[]): { readonly card: RemedyCard; readonly why: RemedyWhy } | null => {
  const inside = cards.filter(isInside);
  // Of a plan that nobody computed nothing is inside its limits: carrying on is what is left when nothing can go back.
  const unknown = inside.find(({ kind, figures }) => kind === 'carry-on' && figures === null);
  const able = inside.filter((card) => card !== unknown && isSafe(card));
  for (const { kinds, why } of FIRST) {
    const [card] = able.filter(({ kind }) => kinds.includes(kind)).toSorted((a, b) => a.change - b.change);
    if (card !== undefined) return { card, why: able.length === 1 && why === 'least-change' ? 'only-way' : why };
  }
  if (unknown !== undefined) return { card: unknown, why: 'not-worked-out' };
  const carryOn = cards.find((card) => card.kind === 'carry-on' && card.enabled && isSafe(card));
  if (carryOn !== undefined) return { card: carryOn, why: 'safe-though-outside' };
  const [surest] = inside.toSorted((a, b) => leastOf(b) - leastOf(a));
  return surest === undefined ? null : { card: surest, why: 'least-doubtful' };
};

/** What may be lye-heavy is shown with that before all else, whichever way it is. */
const warned = (card: RemedyCard): RemedyCard =>
  card.enabled && !isSafe(card) ? { ...card, cautions: ['may-be-lye-heavy', ...card.cautions] } : card;

const recommended = (card: RemedyCard, why: RemedyWhy): RemedyCard => ({ ...card, recommended: { why, params: {} } });

/**
 * At most five: the recommended first, those that can be taken before those that cannot, stopping last. A card that keeps every limit is
 * recommended before one that does not; of several the one that touches least.
 */
export const inOrder = (found: readonly RemedyCard[], stop: RemedyCard): readonly RemedyCard[] => {
  const cards = found.map(warned);
  const chosen = choose(cards);
  if (chosen === null) return [...kept(cards), recommended(stop, 'nothing-else')];
  const others = cards.filter((card) => card !== chosen.card);
  return [recommended(chosen.card, chosen.why), ...kept(others, MOST_CARDS - 2), stop];
};

/** Carrying on is always among them, able or not: it is what a person thinks of first. */
const kept = (cards: readonly RemedyCard[], most = MOST_CARDS - 1): readonly RemedyCard[] => {
  const able = [...cards.filter(({ enabled }) => enabled), ...cards.filter(({ enabled }) => !enabled)];
  const carryOn = able.filter(({ kind }) => kind === 'carry-on');
  const stay = new Set([...carryOn, ...able.filter(({ kind }) => kind !== 'carry-on').slice(0, most - carryOn.length)]);
  return able.filter((card) => stay.has(card));
};
