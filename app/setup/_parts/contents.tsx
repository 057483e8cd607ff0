import type { InstrumentsPage } from '#lib/protocol/http';
import { messages } from '../messages';
import { cutting } from '../messages-cutting';
import { peopleMessages } from '../messages-people';
import { proofMessages } from '../messages-proof';
import { workshop } from '../messages-workshop';
import { on } from './classes';

const INSTRUMENTS = [
  ['instruments', messages.instruments.title],
  ['ports', messages.ports.title],
  ['bind', messages.bind.title],
] as const;
const PRACTICE = [['practice', messages.practice.title]] as const;
const TABLET = [['tablet', messages.tablet.title]] as const;
const ALWAYS = [
  ['mould', workshop.moulds.title],
  ['vessel', workshop.vessels.title],
  ['cutter', cutting.cutters.title],
  ['cure', cutting.cure.title],
  ['habits', workshop.habits.title],
  ['people', peopleMessages.title],
  ['buyers', peopleMessages.buyers],
  ['proof', proofMessages.title],
  ['screen', messages.screen.title],
] as const;

/** What stands on this page, in its order: it is a long one. */
export function Contents({ realm }: { readonly realm: InstrumentsPage['realm'] | null }) {
  const parts = [...(realm === null ? [] : [...INSTRUMENTS, ...(realm === 'practice' ? PRACTICE : []), ...TABLET]), ...ALWAYS];
  return (
    <nav className={on('acts')} aria-label={messages.contents}>
      {parts.map(([id, name]) => (
        <a key={id} href={`#${id}`}>
          {name}
        </a>
      ))}
    </nav>
  );
}
