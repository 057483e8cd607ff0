import type { Metadata, Route } from 'next';
import Link from 'next/link';
import { on } from './_ui/classes';
import { messages } from './_ui/messages';
import { PaperPage } from './_ui/paper';
import { PaperTitle } from './_ui/section';

export const metadata: Metadata = { title: messages.missing.title };

/** An address that no page has. */
export default function NotFound() {
  const { title, lead, act } = messages.missing;
  return (
    <PaperPage foot={title}>
      <PaperTitle title={title} lead={lead}>
        <div className={on('acts')}>
          <Link className={on('act first')} href={'/' as Route} prefetch={false}>
            {act}
          </Link>
        </div>
      </PaperTitle>
    </PaperPage>
  );
}
