'use client';
import Link from 'next/link';
import type { Route } from 'next';
import { dayOf } from '#lib/units/day';
import type { Milligrams } from '#lib/units/mass';
import { mg } from '#lib/units/mass';
import { massText } from '#lib/units/format';
import type { Display } from '#lib/units/display';
import type { Lot } from '#lib/work/formula/index';
import { faultOf } from '#lib/work/lots/fitness';
import { stockOf } from '#lib/work/lots/stock';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { DayOf } from '../../_ui/day';
import { useNow } from '../../_ui/use-now';
import { lotMessages as words } from '../messages-lots';

/** Stock is told in whole grams. */
const STEP = 1000;
const shown = (mass: Milligrams, display: Display): string => massText(mass, display, STEP);

/** Until when it may be used, and why not any more. */
export function Until({ lot }: { readonly lot: Lot }) {
  const wall = useNow();
  const fault = wall === null ? null : faultOf(lot, dayOf(wall, 0 - new Date(wall).getTimezoneOffset()));
  const day = lot.bestBefore === undefined ? null : <DayOf day={lot.bestBefore} />;
  return (
    <>
      {/* One line, but where there is no room for that. */}
      <span className={on('nw wide')}>{day}</span>
      <span className={on('narrow')}>{day}</span>
      {fault === null ? null : <b> {words.faults[fault]}</b>}
    </>
  );
}

/** Whose certificate figures come from, and of when. */
export function Certified({ lot: { certificate }, none }: { readonly lot: Lot; readonly none: string }) {
  if (certificate === null) return <span className={on('none')}>{none}</span>;
  return (
    <>
      {certificate.supplier}, <DayOf day={certificate.date} />
    </>
  );
}

/** What is left; below zero it is told as what it is. */
export function Left({ lot, used }: { readonly lot: Lot; readonly used: number }) {
  const display = useDisplay();
  const { left } = stockOf(lot, mg(used));
  if (left === null) return <span className={on('none')}>{words.notSaid}</span>;
  return left < 0 ? <b>{shown(left, display)}</b> : shown(left, display);
}

/** How the stock of an opened lot comes about, and the way to follow it. */
export function StockLine({ lot, used }: { readonly lot: Lot; readonly used: number }) {
  const display = useDisplay();
  const { received, adjusted, left } = stockOf(lot, mg(used));
  const said = (mass: number): string => shown(mg(mass), display);
  return (
    <p className={on('reading')}>
      {left === null || received === null
        ? words.unknownStock(said(used))
        : words.stock(said(left), said(received), adjusted === 0 ? '' : said(adjusted), said(used))}
      {left !== null && left < 0 ? <b> {words.below}.</b> : null}{' '}
      <Link href={`/stores/follow?lot=${encodeURIComponent(lot.id)}` as Route} prefetch={false}>
        {words.follow}
      </Link>
    </p>
  );
}
