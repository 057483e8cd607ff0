import type { RemedyCard, RemedyKind, RemedyWhy } from './types';

const MOST_CARDS = 5;

const isInside = ({ enabled, leaves }: RemedyCard): boolean => enabled && leaves.length === 0;

/** Even with all doubt about the values it is not lye-heavy. */
const isSafe = ({ figures }: RemedyCard): boolean => figures === null || figures.superfat === null || figures.superfat.low >= 0;

/** What is tried first, and why it comes first when it can be done. */
const FIRST: readonly { readonly kinds: readonly RemedyKind[]; readonly why: RemedyWhy }[] = [
  { kinds: ['finish-pour'], why: 'finish-what-was-begun' },
  { kinds: ['carry-on'], why: 'inside-every-limit' },
  { kinds: ['lift-out'], why: 'still-solid' },
  { kinds: ['back-to-bottle', 'take-out'], why: 'in-its-own-vessel' },
  { kinds: ['use-less', 'use-more', 'add', 'least-change'], why: 'least-change' },
  { kinds: ['pour-off', 'scoop', 'scale', 'split'], why: 'least-change' },
];

const choose = (cards: readonly RemedyCard[]): { readonly card: RemedyCard; readonly why: RemedyWhy } | null => {
  const able = cards.filter(isInside);
  for (const { kinds, why } of FIRST) {
    const [card] = able.filter(({ kind }) => kinds.includes(kind)).toSorted((a, b) => a.change - b.change);
    if (card !== undefined) return { card, why: able.length === 1 && why === 'least-change' ? 'only-way' : why };
  }
  const carryOn = cards.find((card) => card.kind === 'carry-on' && card.enabled && isSafe(card));
  return carryOn === undefined ? null : { card: carryOn, why: 'only-way' };
};

const recommended = (card: RemedyCard, why: RemedyWhy): RemedyCard => ({ ...card, recommended: { why, params: {} } });

/**
 * At most five: the recommended first, those that can be taken before those that cannot, stopping last. A card that keeps every limit is
 * recommended before one that does not; of several the one that touches least.
 */
export const inOrder = (cards: readonly RemedyCard[], stop: RemedyCard): readonly RemedyCard[] => {
  const chosen = choose(cards);
  if (chosen === null) return [...kept(cards), recommended(stop, 'only-way')];
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
