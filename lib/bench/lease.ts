import type { ScreenId } from '#lib/units/id';
import type { Monotonic } from '#lib/units/time';

/**
 * One control lease per bench. It is renewed by its page's heartbeat, not by touch, so that a tablet lying face up keeps it and a
 * page that went dark loses it. Taking it from another page is always an explicit act of a person; a page that was closed leaves it free
 * when its grace is over.
 */
export interface Lease {
  readonly holder: ScreenId | null;
  /** How the holder is called on other screens. */
  readonly label: string | null;
  readonly aliveAt: Monotonic;
  /** The page said goodbye or its socket fell; cleared by its next heartbeat. */
  readonly gone: boolean;
  /** The page is hidden, or something on it lies over the weight: no moment before an acceptance runs. */
  readonly unseen: boolean;
}

/** After this long without the page nothing is accepted. */
export const LEASE_GRACE_MS = 10_000;
/** Two heartbeats missed: other screens are told that the page seems lost. */
const SEEMS_LOST_MS = 3_000;

export const noLease = (now: Monotonic): Lease => ({ holder: null, label: null, aliveAt: now, gone: false, unseen: false });

export const takeLease = (screen: ScreenId, label: string, now: Monotonic): Lease => ({
  holder: screen,
  label: label === '' ? null : label,
  aliveAt: now,
  gone: false,
  unseen: false,
});

export const releaseLease = (lease: Lease, screen: ScreenId, now: Monotonic): Lease => (lease.holder === screen ? noLease(now) : lease);

/** The page is there and visible. A hidden page cannot warn anyone, so its heartbeat renews nothing. */
export const renewLease = (lease: Lease, screen: ScreenId, now: Monotonic): Lease =>
  lease.holder === screen ? { ...lease, aliveAt: now, gone: false } : lease;

/** What the page says of itself; another's page says nothing of the weight that is led. */
export const hideLease = (lease: Lease, screen: ScreenId, unseen: boolean): Lease =>
  lease.holder === screen && lease.unseen !== unseen ? { ...lease, unseen } : lease;

export const partLease = (lease: Lease, screen: ScreenId): Lease => (lease.holder === screen ? { ...lease, gone: true } : lease);

/** A page that went and did not come back within the grace holds nothing any more. One that is only silent, or hidden, still does. */
export const freedLease = (lease: Lease, now: Monotonic): Lease =>
  lease.gone && now - lease.aliveAt >= LEASE_GRACE_MS ? noLease(now) : lease;

/** Whether anything may be accepted: somebody holds the lease and was heard of within the grace. */
export const isLeased = (lease: Lease, now: Monotonic): boolean => lease.holder !== null && now - lease.aliveAt < LEASE_GRACE_MS;

/** Whether this screen's intents count now. */
export const holdsLease = (lease: Lease, screen: ScreenId, now: Monotonic): boolean => lease.holder === screen && isLeased(lease, now);

/** Milliseconds since the holding page was last heard of, once it seems lost; `null` while it is there or nobody holds. */
export const lostFor = (lease: Lease, now: Monotonic): number | null => {
  if (lease.holder === null) return null;
  const silent = now - lease.aliveAt;
  return lease.gone || silent >= SEEMS_LOST_MS ? Math.round(silent) : null;
};
