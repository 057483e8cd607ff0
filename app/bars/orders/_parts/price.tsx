'use client';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../../_live/use';

/** Money as it was typed, two decimals at the least, so that a column of it is read at a glance. */
export function Price({ price }: { readonly price: string }) {
  const { locale } = useDisplay();
  const decimals = Math.max(2, price.split('.')[1]?.length ?? 0);
  const value = Number(price);
  return <>{Number.isFinite(value) ? numberText(value, locale, decimals) : price}</>;
}
