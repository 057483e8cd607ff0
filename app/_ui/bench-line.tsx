'use client';
import Link from 'next/link';
import { see } from '../_live/selectors';
import type { LiveState } from '../_live/store';
import { useLive } from '../_live/use';
import { messages } from './messages';

/** What the bench is doing, in a few words; one primitive, so that frames that say the same draw nothing. */
const standing = ({ link, stale, batch, frame }: LiveState): string => {
  const { bench } = messages;
  if (link === 'connecting') return bench.connecting;
  if (link === 'down' || stale) return bench.gone;
  if (batch === null || batch.status === 'closed' || batch.status === 'abandoned') return bench.idle;
  if (batch.status === 'parked') return bench.phases.parked(batch.mark);
  if (frame?.cue.phase === 'resume') return bench.phases.resume(batch.mark);
  if (batch.status === 'joined') return bench.phases.joined(batch.mark);
  if (batch.away !== null) return bench.phases.away(batch.mark);
  const line = frame?.cue.line ?? batch.open;
  return line === null ? bench.phases.temperatures(batch.mark) : bench.at(batch.mark, batch.order.indexOf(line) + 1, batch.order.length);
};

/** In the running head of every page: which bench, and what stands on it. */
export function BenchLine() {
  const realm = useLive(see.realm);
  const words = useLive(standing);
  return (
    <>
      {realm === null ? messages.bench.unknown : messages.bench.names[realm]}{' '}
      <Link href="/bench" prefetch={false}>
        {words}
      </Link>
    </>
  );
}
