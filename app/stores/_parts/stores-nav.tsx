'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { usePathname } from 'next/navigation';
import { followMessages } from '../messages-follow';

const { nav } = followMessages;
const WAYS = [
  ['/stores', nav.stores],
  ['/stores/follow', nav.follow],
  ['/stores/recall', nav.recall],
  ['/stores/complaints', nav.complaints],
] as const;

/** In the margin: what else belongs to the stores. A page needs no way to itself. */
export function StoresNav() {
  const here = usePathname();
  return (
    <nav aria-label={nav.name}>
      {WAYS.filter(([href]) => href !== here).map(([href, name]) => (
        <p key={href}>
          <Link href={href as Route} prefetch={false}>
            {name}
          </Link>
        </p>
      ))}
    </nav>
  );
}
