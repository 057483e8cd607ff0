'use client';
import type { Card, RemedySeen } from '#lib/bench/cue';
import type { BatchState } from '#lib/work/batch/index';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { useFrame } from '../../_ui/frame';
import { remedyName } from '#lib/words/remedy-messages';
import type { Params, Show } from '../messages';
import { waysMessages as words } from '../messages-ways';
import styles from '../ways.module.css';
import work from '../work.module.css';
import { OneCard, useDialog } from './cards';
import { intend } from './controls';
import { mattersOf, reasonOf, superfatOf } from './way-words';
import { showIn } from './words';

const numberOf = (params: Params, key: string): number | null => (typeof params[key] === 'number' ? params[key] : null);

/** What a way out is called on this screen. */
const nameOf = ({ code, params, enabled }: Pick<Card, 'code' | 'params' | 'enabled'>, batch: BatchState | null, show: Show): string => {
  // What cannot be done needs no amount.
  const mass = enabled ? numberOf(params, 'mass') : null;
  const line = Object.values(batch?.lines ?? {}).find(({ plan }) => plan.id === params['line']);
  const of = line === undefined ? null : line.plan.material.name;
  return remedyName(code, { of, mass: mass === null ? null : show.mass(mass), count: numberOf(params, 'count') ?? 0 });
};

/** A small screen names the oil without saying that it is one. */
const nameIn = (wide: boolean, name: string): string => (wide ? name : name.replace(/^Use | (oil|butter)$/g, ''));

/** What it takes, and how full the moulds are then. */
const costOf = ({ added, taken, full }: RemedySeen, show: Show): readonly string[] => [
  ...(added > 0 ? [words.adds(show.mass(added))] : []),
  ...(taken > 0 ? [words.takes(show.mass(taken))] : []),
  ...(added > 0 && full !== null ? [words.full(show.share(full))] : []),
];

/** The ways out, the recommended one first and told apart, each with what comes of it in numbers. Taken with a hold. */
export function Ways() {
  const cards = useLive(see.cards);
  const selected = useLive(see.selected);
  const division = useLive(see.division);
  const batch = useLive(see.batch);
  const wide = useFrame() === 'wide';
  const display = useDisplay();
  const show = showIn(display, division);
  // Another set of cards is another element: what stands elsewhere has not moved.
  const set = cards.map(({ code }) => code).join(' ');
  useDialog(set);
  return (
    <div key={set} className={`${work['cards']} ${styles['ways']}`} data-count={cards.length}>
      {cards.map((card, index) => {
        const { remedy } = card;
        const about = remedy === undefined ? null : superfatOf(remedy, show);
        const reason =
          remedy === undefined ? words.crossOut.sub(show.mass(numberOf(card.params, 'over') ?? 0)) : reasonOf(card, remedy, batch, show);
        const matters = remedy === undefined ? [] : mattersOf(remedy, batch, show);
        const [matter = about] = matters;
        const all = about === null ? matters : [...matters, words.superfat(about)];
        // A small card has room for one figure: of what is wrong.
        const figures = all.length === 0 ? null : wide ? all.join(', ') : matter;
        return (
          <OneCard
            key={card.code}
            name={remedy === undefined ? words.crossOut.name : nameIn(wide, nameOf(card, batch, show))}
            sub={figures ?? (wide || !card.enabled ? reason : '')}
            card={card}
            current={index === selected}
            onTake={(hold) => intend({ kind: 'take-card', card: index, code: card.code, hold })}
            band={remedy !== undefined && remedy.recommended !== null ? words.recommended : undefined}
            more={
              remedy === undefined || figures === null || !wide ? null : (
                <Consequence seen={remedy} batch={batch} show={show} reason={reason} />
              )
            }
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
  readonly reason: string;
}

/** The recommended card says which targets move and why it comes first; the others what they take, else what speaks against them. */
function Consequence({ seen, batch, show, reason }: ConsequenceProps) {
  const cost = costOf(seen, show).join(', ');
  const why = seen.solved ? reason : words.unsolved;
  if (seen.recommended === null) return <small>{[cost, why].filter((one) => one !== '').join(', ')}</small>;
  const bare = seen.lines.length === 1;
  return (
    <>
      {seen.lines.map(({ line, from, to }) => (
        <em key={line}>
          {words.line(bare ? '' : (batch?.lines[line]?.plan.material.name ?? ''), show.mass(from).replace(/\s\D+$/, ''), show.mass(to))}
        </em>
      ))}
      {seen.lines.length > 0 || cost === '' ? null : <small>{cost}</small>}
      <small>{why}</small>
    </>
  );
}

/** A card as it is read aloud. */
export const wayText = (card: Card, batch: BatchState | null, show: Show): string => {
  const { remedy } = card;
  if (remedy === undefined) return '';
  const about = superfatOf(remedy, show);
  const lines = remedy.lines.map(({ line, to }) => `${batch?.lines[line]?.plan.material.name ?? ''} ${show.mass(to)}`);
  const figures = [...mattersOf(remedy, batch, show), about === null ? '' : words.superfat(about)];
  const parts = [...figures, ...costOf(remedy, show), ...lines, reasonOf(card, remedy, batch, show)];
  return `${nameOf(card, batch, show)}: ${[...parts, remedy.solved ? '' : words.unsolved].filter((one) => one !== '').join('. ')}.`;
};
