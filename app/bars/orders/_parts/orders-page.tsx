'use client';
import type { Route } from 'next';
import Link from 'next/link';
import type { OrdersPage as There } from '#lib/protocol/orders';
import type { Formula, Material, Mould } from '#lib/work/formula/index';
import type { ShelfItem } from '#lib/protocol/shelf';
import { taskInside } from '#lib/words/agenda';
import { Poured } from '../../../_ui/due/poured';
import { KeptList } from '../../../_ui/kept/list';
import { ordersApi } from '../../../_ui/orders-api';
import { PaperPage } from '../../../_ui/paper';
import { peopleApi } from '../../../_ui/people-api';
import { Asking, Problem, ProblemSection } from '../../../_ui/problem';
import { PaperTitle } from '../../../_ui/section';
import { shelfApi } from '../../../_ui/shelf-api';
import type { Answer } from '../../../_ui/api';
import { SHARED_EVERY_MS, useAsked } from '../../../_ui/use-asked';
import { useDisplay } from '../../../_live/use';
import { messages } from '../../messages-orders';
import { dayIn } from '#lib/words/day';
import { Days } from './days';
import { HandOver } from './hand-over';
import { goodsKind } from './goods-kind';
import { materialsBought } from './materials-bought';
import { orderKind } from './order-kind';
import { Promised } from './promised';
import { ToBuy } from './to-buy';
import { ToPour } from './to-pour';
import { TradeForm } from './trade-form';

interface Shelves {
  readonly page: There;
  readonly orders: readonly ShelfItem[];
  readonly ordersAway: readonly ShelfItem[];
  readonly goods: readonly ShelfItem[];
  readonly goodsAway: readonly ShelfItem[];
  readonly formulas: readonly Pick<Formula, 'id' | 'name'>[];
  readonly moulds: readonly Pick<Mould, 'id' | 'name'>[];
  readonly materials: readonly Pick<Material, 'id' | 'name'>[];
  readonly buyers: readonly { readonly id: string; readonly name: string }[];
}

const documentsOf = <T,>(items: readonly ShelfItem[]): readonly T[] => items.map(({ document }) => document as unknown as T);

const askAll = async (): Promise<Answer<Shelves>> => {
  const [page, orders, goods, formulas, moulds, people] = await Promise.all([
    ordersApi.page(),
    shelfApi.list('order'),
    shelfApi.list('goods'),
    shelfApi.list('formula'),
    shelfApi.list('mould'),
    peopleApi.list(),
  ]);
  for (const one of [page, orders, goods, formulas, moulds, people]) if (!one.ok) return one;
  if (!page.ok || !orders.ok || !goods.ok || !formulas.ok || !moulds.ok || !people.ok) throw new Error('an answer is there or is not');
  return {
    ok: true,
    value: {
      page: page.value,
      orders: orders.value.items,
      ordersAway: orders.value.away,
      goods: goods.value.items,
      goodsAway: goods.value.away,
      formulas: documentsOf(formulas.value.items),
      moulds: documentsOf(moulds.value.items),
      materials: materialsBought(page.value, documentsOf<Formula>(formulas.value.items)),
      buyers: people.value.people.flatMap(({ id, role, name }) => (role === 'buyer' && name !== null ? [{ id, name }] : [])),
    },
  };
};

/** What is asked for, what it takes, and when. */
export function OrdersPage() {
  const { asked, again } = useAsked(askAll, { everyMs: SHARED_EVERY_MS });
  const display = useDisplay();
  const there = asked.state === 'there' ? asked.value : null;
  return (
    <PaperPage foot={messages.title}>
      <PaperTitle
        title={messages.title}
        lead={there === null ? undefined : leadOf(there.page, display.locale)}
        side={
          <p>
            <Link href={'/bars' as Route} prefetch={false}>
              {messages.back}
            </Link>
          </p>
        }
      >
        {asked.state === 'asking' ? <Asking /> : null}
        {asked.state === 'there' && asked.problem !== null ? <Problem problem={asked.problem} onAgain={again} /> : null}
      </PaperTitle>
      {asked.state === 'failed' ? <ProblemSection problem={asked.problem} onAgain={again} /> : null}
      {there === null ? null : <Sections there={there} again={again} />}
    </PaperPage>
  );
}

function Sections({ there, again }: { readonly there: Shelves; readonly again: () => void }) {
  const { page, formulas, moulds, materials, buyers } = there;
  const { outlook, working } = page;
  const any = outlook.reserved.length > 0 && working === 0;
  return (
    <>
      <KeptList kind={orderKind(formulas, buyers, outlook.stands)} items={there.orders} away={there.ordersAway} again={again} />
      <Poured revision={page.today} />
      {any ? <Promised page={page} /> : null}
      {working === 0 ? <HandOver page={page} again={again} /> : null}
      {any ? <ToPour page={page} /> : null}
      {any ? <ToBuy page={page} /> : null}
      {working === 0 ? <Days page={page} /> : null}
      <TradeForm moulds={moulds} onKept={again} />
      <KeptList kind={goodsKind(materials, formulas, page.drawn)} items={there.goods} away={there.goodsAway} again={again} />
    </>
  );
}

const leadOf = ({ outlook, orders, names, working }: There, locale: string) => {
  const open = orders.filter(({ state }) => state === 'open').length;
  if (open === 0) return messages.lead.none;
  // What is promised and poured follows from it: half of it would be wrong.
  if (working > 0) return messages.lead.working(open, working);
  const missing = outlook.reserved.reduce((sum, one) => sum + one.missing, 0);
  const [next] = outlook.agenda;
  const first =
    next === undefined
      ? ''
      : messages.lead.next(
          taskInside(next.task, (id) => names[id] ?? id),
          dayIn(next.day, locale),
        );
  return `${messages.lead.some(open, missing)} ${first}`.trim();
};
