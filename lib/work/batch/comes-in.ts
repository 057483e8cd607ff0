import type { Contribution } from './state';

/** What comes into a line from a lot: poured, typed, or brought from the batch that set it aside. */
export const comesIn = ({ kind }: { readonly kind: Contribution['kind'] }): boolean =>
  kind === 'pour' || kind === 'typed' || kind === 'brought';
