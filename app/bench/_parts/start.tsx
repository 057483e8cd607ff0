'use client';
import { useEffect, useState } from 'react';
import type { ReactNode } from 'react';
import type { Route } from 'next';
import { useRouter } from 'next/navigation';
import { massText } from '#lib/units/format';
import type { BatchListRow } from '#lib/protocol/http';
import { fetchParked, fetchPlans } from '../../_live/http';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { messages } from '../messages';
import { startMessages } from '../messages-start';
import styles from '../work.module.css';
import { LocalCards } from './cards';
import type { LocalCard } from './cards';
import { intend } from './controls';
import { PagesOfCards } from './pages-of-cards';
import { MOST_PARKED, Parked, parkedCard } from './parked';
import { StartLots, lotSub } from './start-lots';
import type { Lot, OfferedPlan } from './start-lots';
import { MouldChoice, takeUpOrAsk } from './take-up';
import type { Mouldless } from './take-up';

type Fetched =
  | { readonly state: 'loading' }
  | { readonly state: 'failed' }
  | { readonly state: 'there'; readonly plans: readonly OfferedPlan[]; readonly parked: readonly BatchListRow[] };

type There = Extract<Fetched, { state: 'there' }>;

const fetchAll = async (): Promise<Fetched> => {
  try {
    const [{ plans }, parked] = await Promise.all([fetchPlans(), fetchParked()]);
    return { state: 'there', plans, parked };
  } catch {
    return { state: 'failed' };
  }
};

interface FetchingProps {
  readonly children: (there: There) => ReactNode;
  /** What can be done while nothing is fetched, or nothing can be. */
  readonly meanwhile?: readonly LocalCard[];
}

const NOTHING: readonly LocalCard[] = [];

/** Fetches what may be chosen, and says so while it cannot: `children` draws it. */
function Fetching({ children, meanwhile = NOTHING }: FetchingProps) {
  const [tries, setTries] = useState(0);
  return (
    <Fetch key={tries} meanwhile={meanwhile} onAgain={() => setTries(tries + 1)}>
      {children}
    </Fetch>
  );
}

function Fetch({ children, meanwhile = NOTHING, onAgain }: FetchingProps & { readonly onAgain: () => void }) {
  const [fetched, setFetched] = useState<Fetched>({ state: 'loading' });
  useEffect(() => {
    const load = async (): Promise<void> => setFetched(await fetchAll());
    void load();
  }, []);
  if (fetched.state === 'loading') {
    return meanwhile.length > 0 ? (
      <LocalCards cards={meanwhile} back={() => undefined} />
    ) : (
      <p className={styles['note']}>{startMessages.loading}</p>
    );
  }
  if (fetched.state === 'there') return children(fetched);
  const again = { key: 'again', name: messages.press.tryAgain, sub: startMessages.failed, take: onAgain };
  return <LocalCards cards={[...meanwhile, again]} back={() => undefined} />;
}

/** The batch that has just ended is reviewed whatever else can be fetched. */
const useReviewCard = (): readonly LocalCard[] => {
  const router = useRouter();
  const ended = useLive(({ batch }) => (batch !== null && (batch.status === 'closed' || batch.status === 'abandoned') ? batch.id : null));
  const mark = useLive(see.mark) ?? '';
  if (ended === null) return NOTHING;
  const take = (): void => router.push(`/batches/review?id=${encodeURIComponent(ended)}` as Route);
  return [{ key: 'review', name: startMessages.review, sub: mark, take }];
};

/** The empty bench: choose what to make, then the lot in hand of each material, then start. Parked batches are taken up here. */
export function Start() {
  const [plan, setPlan] = useState<OfferedPlan | null>(null);
  const [parked, setParked] = useState(false);
  const [mouldless, setMouldless] = useState<Mouldless | null>(null);
  const onTake = (row: BatchListRow): void => void takeUpOrAsk(row, setMouldless);
  const review = useReviewCard();
  return (
    <Fetching meanwhile={review}>
      {(there) => {
        if (plan !== null) return <StartLots key={plan.id} offered={plan} onLeave={() => setPlan(null)} />;
        if (mouldless !== null) return <MouldChoice key={mouldless.row.id} of={mouldless} onLeave={() => setMouldless(null)} />;
        if (parked) return <Parked rows={there.parked} onTake={onTake} onLeave={() => setParked(false)} />;
        return <Choices fetched={there} review={review} onPlan={setPlan} onTake={onTake} onParked={() => setParked(true)} />;
      }}
    </Fetching>
  );
}

/** The lots that the stores have of a line, drawn by `children` once they are fetched. */
export function LotsOf({ line, children }: { readonly line: string; readonly children: (lots: readonly Lot[]) => ReactNode }) {
  const formula = useLive(({ batch }) => batch?.plan.formula.id ?? null);
  return <Fetching>{({ plans }) => children(plans.find(({ plan }) => plan.formula.id === formula)?.lots[line] ?? [])}</Fetching>;
}

/** A line that must not be weighed before its lot is known: the lots there are of it. */
export function LotChoice() {
  const line = useLive(see.line);
  if (line === null) return null;
  return (
    <LotsOf line={line.plan.id}>
      {(lots) => {
        const cards = lots.map((lot, at) => ({
          key: lot.id,
          name: lot.mark,
          sub: lotSub(lot, at, lots.length) || line.plan.material.name,
          hold: lot.fault !== undefined,
          take: () =>
            intend({ kind: 'choose-lot', line: line.plan.id, lot: { id: lot.id, mark: lot.mark }, held: lot.fault !== undefined }),
        }));
        return cards.length === 0 ? (
          <p className={styles['note']}>{startMessages.noLots}</p>
        ) : (
          <PagesOfCards cards={cards} more={startMessages.moreLots} pageWords={startMessages.page} back={() => undefined} />
        );
      }}
    </LotsOf>
  );
}

const lacking = ({ plan: { lines } }: OfferedPlan): string => {
  if (lines.every(({ mode }) => mode === 'by-hand')) return startMessages.byHand;
  if (lines.some(({ mode }) => mode === 'by-hand')) return startMessages.someByHand;
  return lines.some(({ meant }) => meant !== undefined) ? startMessages.oneScale : '';
};
const total = ({ plan }: OfferedPlan): number => plan.lines.reduce((sum, line) => sum + line.target, 0);

interface ChoicesProps {
  readonly fetched: There;
  readonly review: readonly LocalCard[];
  readonly onPlan: (plan: OfferedPlan) => void;
  readonly onTake: (row: BatchListRow) => void;
  readonly onParked: () => void;
}

function Choices({ fetched, review, onPlan, onTake, onParked }: ChoicesProps) {
  const display = useDisplay();
  // What a screen may not do it does not begin: a watcher would be refused only after the last lot.
  const waits = !useLive(see.mine);
  const router = useRouter();
  const cards: LocalCard[] = [
    ...(fetched.parked.length <= MOST_PARKED
      ? fetched.parked.map((row) => ({ ...parkedCard(row, onTake), waits }))
      : [
          {
            key: 'all parked',
            name: startMessages.allParked,
            sub: startMessages.countParked(fetched.parked.length),
            waits,
            take: onParked,
          },
        ]),
    ...review,
    ...fetched.plans.map((offered) => ({
      key: `plan ${offered.id}`,
      name: offered.plan.formula.name,
      sub: startMessages.lines(offered.plan.lines.length, massText(total(offered), display, 1000)) + lacking(offered),
      waits,
      take: () => onPlan(offered),
    })),
    ...(fetched.plans.length > 0
      ? []
      : [{ key: 'no plan', name: startMessages.none, sub: startMessages.noneSub, take: () => router.push('/formulas') }]),
  ];
  return <PagesOfCards cards={cards} more={startMessages.more} pageWords={startMessages.page} back={() => undefined} />;
}
