'use client';
import type { Card, RemedySeen } from '#lib/bench/cue';
import type { BatchState } from '#lib/work/batch/index';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { aboutWords, remedyName, whyNotWords } from '../../_ui/remedy-messages';
import type { Params, Show } from '../messages';
import { waysMessages as words } from '../messages-ways';
import styles from '../ways.module.css';
import work from '../work.module.css';
import { OneCard, useDialog } from './cards';
import { intend } from './controls';
import { showIn } from './words';

const numberOf = (params: Params, key: string): number | null => (typeof params[key] === 'number' ? params[key] : null);

/** What a way out is called on this screen. */
const nameOf = ({ code, params }: Pick<Card, 'code' | 'params'>, batch: BatchState | null, show: Show): string => {
  const mass = numberOf(params, 'mass');
  const line = Object.values(batch?.lines ?? {}).find(({ plan }) => plan.id === params['line']);
  const of = line === undefined ? null : line.plan.material.name;
  return remedyName(code, { of, mass: mass === null ? null : show.mass(mass), count: numberOf(params, 'count') ?? 0 });
};

/** What would come of it, in numbers, most important first. */
const figuresOf = (seen: RemedySeen, show: Show): readonly string[] => [
  ...(seen.superfat === null ? [] : [words.superfat(aboutWords(show.share(seen.superfat.value), show.share(seen.superfat.half)))]),
  ...(seen.added > 0 ? [words.adds(show.mass(seen.added))] : []),
  ...(seen.taken > 0 ? [words.takes(show.mass(seen.taken))] : []),
];

/** Why it comes first, why it cannot be taken, or what to mind. */
const reasonOf = ({ enabled, why }: Pick<Card, 'enabled' | 'why'>, seen: RemedySeen): string | null => {
  const clash = seen.clash === null ? null : words.limits[seen.clash.limit];
  if (!enabled) return [whyNotWords[why ?? ''] ?? why ?? '', ...(clash === null ? [] : [clash])].join(': ');
  if (seen.recommended !== null) return words.why[seen.recommended];
  const caution = seen.cautions.find((one) => one !== 'protect') ?? seen.cautions[0];
  if (caution === 'outside-formula' && clash !== null) return words.leaves(clash);
  return caution === undefined ? null : words.cautions[caution];
};

/** The ways out, the recommended one first and told apart, each with what comes of it in numbers. Taken with a hold. */
export function Ways() {
  const cards = useLive(see.cards);
  const selected = useLive(see.selected);
  const division = useLive(see.division);
  const batch = useLive(see.batch);
  const display = useDisplay();
  const show = showIn(display, division);
  useDialog(cards.map(({ code }) => code).join(' '));
  return (
    <div className={`${work['cards']} ${styles['ways']}`} data-count={cards.length}>
      {cards.map((card, index) => {
        const { remedy } = card;
        const name = remedy === undefined ? words.crossOut.name : nameOf(card, batch, show);
        const reason = remedy === undefined ? words.crossOut.sub(show.mass(numberOf(card.params, 'over') ?? 0)) : reasonOf(card, remedy);
        return (
          <OneCard
            key={`${card.code} ${index}`}
            name={name}
            sub={remedy === undefined ? (reason ?? '') : figuresOf(remedy, show).join(', ')}
            card={card}
            current={index === selected}
            onTake={(hold) => intend({ kind: 'take-card', card: index, code: card.code, hold })}
            band={remedy !== undefined && remedy.recommended !== null ? words.recommended : undefined}
            more={remedy === undefined ? null : <Consequence seen={remedy} batch={batch} show={show} reason={reason} />}
          />
        );
      })}
    </div>
  );
}

interface ConsequenceProps {
  readonly seen: RemedySeen;
  readonly batch: BatchState | null;
  readonly show: Show;
  readonly reason: string | null;
}

function Consequence({ seen, batch, show, reason }: ConsequenceProps) {
  return (
    <>
      {seen.lines.map(({ line, from, to }) => (
        <em key={line}>{words.line(batch?.lines[line]?.plan.material.name ?? '', show.mass(from), show.mass(to))}</em>
      ))}
      {seen.solved ? null : <small>{words.unsolved}</small>}
      {reason === null ? null : <small>{reason}</small>}
    </>
  );
}

/** A card as it is read aloud. */
export const wayText = (card: Card, batch: BatchState | null, show: Show): string => {
  const { remedy } = card;
  if (remedy === undefined) return '';
  const lines = remedy.lines.map(({ line, to }) => `${batch?.lines[line]?.plan.material.name ?? ''} ${show.mass(to)}`);
  const parts = [...figuresOf(remedy, show), ...lines, reasonOf(card, remedy) ?? '', remedy.solved ? '' : words.unsolved];
  return `${nameOf(card, batch, show)}: ${parts.filter((one) => one !== '').join('. ')}.`;
};
