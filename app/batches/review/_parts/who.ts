import type { BatchPage } from '#lib/protocol/http';
import { afterwardsMessages } from '../messages-afterwards';

/** The name of who did it, or that it was erased; `null`: nobody who ever had one here. */
export const namedOf = ({ people }: Pick<BatchPage, 'people'>, by: string): string | null =>
  Object.hasOwn(people, by) ? (people[by] ?? afterwardsMessages.erased) : null;

/** What an instrument is called. */
export type NameOf = (instrument: string) => string;
