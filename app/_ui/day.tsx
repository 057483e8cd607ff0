'use client';
import type { Day } from '#lib/units/day';
import { shortDatedIn } from '#lib/words/day';
import { useDisplay } from '../_live/use';

/** A day of the calendar in a list: "13 Jan 2027", as this person writes days. */
export function DayOf({ day }: { readonly day: Day }) {
  const { locale } = useDisplay();
  // Where there is little room the year goes below, the rest stays together.
  return <>{shortDatedIn(day, locale).replace(' ', '\u00A0')}</>;
}
