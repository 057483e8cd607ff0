'use client';
import { ProblemSection } from '../problem';
import { shelfApi } from '../shelf-api';
import { SHARED_EVERY_MS, useAsked } from '../use-asked';
import type { Kind } from './kind';
import { KeptList } from './list';

/** A list that asks for itself; nothing while it is asked for, and what it had stays where the bench machine is gone. */
export function KeptSection<D>({ kind }: { readonly kind: Kind<D> }) {
  const { asked, again } = useAsked(() => shelfApi.list(kind.noun), { everyMs: SHARED_EVERY_MS });
  if (asked.state === 'asking') return null;
  if (asked.state === 'failed') return <ProblemSection problem={asked.problem} onAgain={again} />;
  return <KeptList kind={kind} items={asked.value.items} away={asked.value.away} again={again} />;
}
