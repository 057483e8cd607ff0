'use client';
import type { Card } from '#lib/bench/cue';
import type { BatterWrong, Pattern } from '#lib/work/batch/pouring/types';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import type { Show } from '../messages';
import { cardWordsFor } from '../messages-cards';
import { pourWords, wrongWords } from '../messages-pour';
import benchStyles from '../bench.module.css';
import styles from '../work.module.css';
import { OneCard, useDialog } from './cards';
import { intend } from './controls';
import { showIn } from './words';

interface Words {
  readonly name: string;
  readonly sub: string;
}

/** The words of a pattern, or of what is wrong; a mark of trace says that it goes on as planned. */
const wordsOf = ({ code, params }: Card, show: Show): Words => {
  const known: Words | undefined =
    (pourWords.patterns as Readonly<Partial<Record<string, Words>>>)[code as Pattern] ?? wrongWords[code as BatterWrong];
  if (known !== undefined) return known;
  if (code === 'more-patterns') return pourWords.morePatterns;
  if (code === 'to-plain-pour') return { name: pourWords.toPlain.name, sub: pourWords.toPlain.sub(Number(params['moulds'])) };
  return { name: cardWordsFor(code).title(params, show), sub: pourWords.again };
};

/** Cards that name a pattern, or say what is wrong with the batter. */
export function PourCards() {
  const cards = useLive(see.cards);
  const selected = useLive(see.selected);
  const show = showIn(useDisplay(), null);
  useDialog(cards.map(({ code, params }) => `${code} ${params['mark'] ?? ''}`).join(' '));
  return (
    <div className={styles['cards']} data-count={cards.length}>
      {cards.map((card, index) => (
        <OneCard
          key={`${card.code} ${card.params['mark'] ?? ''}`}
          {...wordsOf(card, show)}
          card={card}
          current={index === selected}
          onTake={(hold) => intend({ kind: 'take-card', card: index, code: card.code, hold })}
        />
      ))}
    </div>
  );
}

/** Beside them: what to do at once about what a person has said is wrong. */
export function Advice() {
  const trouble = useLive(({ batch }) => batch?.pour.trouble ?? null);
  const known = trouble === null || trouble === 'which' ? null : wrongWords[trouble];
  const todo = known === null ? [] : known.todo.map((one, at) => (at === 0 ? pourWords.first(known.name, one) : one));
  return (
    // Other advice is another list: what stands elsewhere in it has not moved.
    <ol key={trouble} className={benchStyles['precautions']}>
      {[pourWords.caustic, ...todo].map((item) => (
        <li key={item}>{item}</li>
      ))}
      {todo.length === 0 ? null : <li>{pourWords.source}</li>}
    </ol>
  );
}
