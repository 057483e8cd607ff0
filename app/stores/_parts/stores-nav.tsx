'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { followMessages } from '../messages-follow';

const { nav } = followMessages;
const WAYS = [
  ['/stores', nav.stores],
  ['/stores/follow', nav.follow],
  ['/stores/recall', nav.recall],
  ['/stores/complaints', nav.complaints],
] as const;

/** In the margin: what else belongs to the stores. `here`: the list itself, which needs no way to itself. */
export function StoresNav({ here = false }: { readonly here?: boolean }) {
  return (
    <>
      {WAYS.slice(here ? 1 : 0).map(([href, name]) => (
        <p key={href}>
          <Link href={href as Route} prefetch={false}>
            {name}
          </Link>
        </p>
      ))}
    </>
  );
}
