'use client';
import Link from 'next/link';
import { usePreference } from '../_live/use';
import { messages } from './messages';
import { makersOf, peopleApi } from './people-api';
import { useAsked } from './use-asked';

/** In the running head: who acts on this screen, once somebody has said. A tap leads to the names. */
export function Acting() {
  const pass = usePreference((kept) => kept.pass);
  return pass === null ? null : <Named pass={pass} />;
}

function Named({ pass }: { readonly pass: string }) {
  const { asked } = useAsked(peopleApi.list, { revision: pass });
  const page = asked.state === 'there' ? asked.value : null;
  const name = page === null ? '' : (makersOf(page).find(({ id }) => id === page.me)?.name ?? messages.acting.nobody);
  return (
    <>
      {' · '}
      <Link href="/setup#people" prefetch={false} aria-label={messages.acting.spoken(name)}>
        {name}
      </Link>
    </>
  );
}
