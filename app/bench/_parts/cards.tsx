'use client';
import { useEffect } from 'react';
import type { ReactNode } from 'react';
import type { Card } from '#lib/bench/cue';
import { see } from '../../_live/selectors';
import { guard, useDisplay, useLive } from '../../_live/use';
import { HoldPress, Press } from '../../_ui/press';
import { cardWordsFor, whyNot } from '../messages-cards';
import styles from '../work.module.css';
import { controls, holdWords, intend, useControls } from './controls';
import { showIn } from './words';

/** The conductor's cards: what may be done now, each with its consequence. They appear only where nothing was pressable. */
export function Cards() {
  const cards = useLive(see.cards);
  const selected = useLive(see.selected);
  const division = useLive(see.division);
  const display = useDisplay();
  const codes = cards.map(({ code }) => code).join(' ');
  useDialog(codes);
  const show = showIn(display, division);
  return (
    <div className={styles['cards']} data-count={cards.length}>
      {cards.map((card, index) => {
        const words = cardWordsFor(card.code);
        return (
          <OneCard
            key={card.code + String(card.params['reason'] ?? card.params['vessel'] ?? card.params['material'] ?? '')}
            name={words.title(card.params, show)}
            sub={card.why === null ? words.sub(card.params, show) : whyNot(card.why)}
            card={card}
            current={index === selected}
            onTake={(hold) => intend({ kind: 'take-card', card: index, code: card.code, hold })}
          />
        );
      })}
    </div>
  );
}

/** New cards are a dialog: whatever finger is on its way meant something else. */
export const useDialog = (key: string): void => useEffect(() => (key === '' ? undefined : guard.quiet()), [key]);

interface OneCardProps {
  readonly name: string;
  readonly sub: string | undefined;
  readonly card: Pick<Card, 'hold' | 'enabled' | 'code'>;
  readonly current: boolean;
  readonly onTake: (hold: boolean) => void;
  /** Over its name, for the one that is recommended. */
  readonly band?: ReactNode;
  readonly more?: ReactNode;
}

export function OneCard({ name, sub, card, current, onTake, band, more }: OneCardProps) {
  const pedal = useControls((state) => (state.pedal?.key === 'go-on' ? state.pedal : null));
  const face = {
    className: styles['card'],
    name,
    sub,
    current,
    more,
    icon: band,
    data: { 'data-card': card.code, 'data-band': band === undefined ? undefined : '' },
  };
  if (!card.enabled) return <Press {...face} />;
  if (!card.hold) return <Press {...face} onTap={() => onTake(false)} />;
  return (
    <HoldPress
      {...face}
      words={holdWords}
      pedal={current && pedal !== null ? (pedal.full ? 'full' : 'holding') : null}
      onHeld={() => onTake(true)}
    />
  );
}

export interface LocalCard {
  readonly key: string;
  readonly name: string;
  readonly sub: string;
  readonly hold?: boolean;
  /** Not to be taken now. */
  readonly waits?: boolean;
  readonly take: () => void;
}

interface LocalCardsProps {
  readonly cards: readonly LocalCard[];
  readonly back: () => void;
}

const saidOf = (card: LocalCard | undefined): string => (card === undefined ? '' : `${[card.name, card.sub].filter(Boolean).join(': ')}.`);

/** Cards this page makes itself, stepped by the same keys and pedal. Another set begins with none chosen. */
export function LocalCards(props: LocalCardsProps) {
  const key = props.cards.map((card) => card.key).join(' ');
  useDialog(key);
  return <LocalSet key={key} {...props} />;
}

function LocalSet({ cards, back }: LocalCardsProps) {
  const selected = useControls((state) => state.selected);
  useEffect(() => {
    controls.setState({
      local: {
        count: cards.length,
        take: (index) => (cards[index]?.waits === true ? undefined : cards[index]?.take()),
        said: (index) => saidOf(cards[index]),
        back,
      },
    });
  });
  useEffect(() => {
    controls.setState({ selected: -1 });
    return () => controls.setState({ local: null, selected: -1 });
  }, []);
  return (
    <div className={styles['cards']} data-count={cards.length}>
      {cards.map((card, index) => (
        <OneCard
          key={card.key}
          name={card.name}
          sub={card.sub}
          card={{ code: card.key, hold: card.hold ?? false, enabled: card.waits !== true }}
          current={index === selected}
          onTake={card.take}
        />
      ))}
    </div>
  );
}
