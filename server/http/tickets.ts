import { randomBytes } from 'node:crypto';

/** How long a ticket waits for its download, ms. */
const GOOD_FOR_MS = 60_000;

/** Tickets for one download each: a link cannot send what a screen was let in with. */
export interface Tickets {
  give(): string;
  /** Whether it was one; it is none any more. */
  take(ticket: string): boolean;
}

export const createTickets = (now: () => number = () => performance.now()): Tickets => {
  const given = new Map<string, number>();
  return {
    give() {
      for (const [ticket, at] of given) if (now() - at > GOOD_FOR_MS) given.delete(ticket);
      const ticket = randomBytes(18).toString('base64url');
      given.set(ticket, now());
      return ticket;
    },
    take(ticket) {
      const at = given.get(ticket);
      given.delete(ticket);
      return at !== undefined && now() - at <= GOOD_FOR_MS;
    },
  };
};
