import { describe, expect, it } from 'vitest';
import {
  freedLease,
  holdsLease,
  isLeased,
  LEASE_GRACE_MS,
  lostFor,
  noLease,
  partLease,
  releaseLease,
  renewLease,
  takeLease,
} from '#lib/bench/lease';
import { as } from '#lib/units/id';
import type { ScreenId } from '#lib/units/id';
import { monotonic } from '#lib/units/time';

const tablet = as<ScreenId>('tablet');
const phone = as<ScreenId>('phone');
const at = monotonic;

describe('A6: one control lease per bench', () => {
  it('nobody holds it at first, and nothing is accepted', () => {
    expect(isLeased(noLease(at(0)), at(0))).toBe(false);
  });

  it('is renewed by its page and ends 10 s after the page was last heard', () => {
    let lease = takeLease(tablet, 'tablet', at(0));
    lease = renewLease(lease, tablet, at(5_000));
    expect(isLeased(lease, at(5_000 + LEASE_GRACE_MS - 1))).toBe(true);
    expect(isLeased(lease, at(5_000 + LEASE_GRACE_MS))).toBe(false);
    expect(holdsLease(lease, tablet, at(5_000 + LEASE_GRACE_MS))).toBe(false);
  });

  it('is not renewed by another page', () => {
    const lease = renewLease(takeLease(tablet, 'tablet', at(0)), phone, at(9_000));
    expect(isLeased(lease, at(LEASE_GRACE_MS))).toBe(false);
  });

  it('passes by an explicit take, and the first page then holds nothing', () => {
    const lease = takeLease(phone, 'phone', at(100));
    expect(holdsLease(lease, phone, at(200))).toBe(true);
    expect(holdsLease(lease, tablet, at(200))).toBe(false);
  });

  it('is given back only by its holder', () => {
    const lease = takeLease(tablet, 'tablet', at(0));
    expect(releaseLease(lease, phone, at(1)).holder).toBe(tablet);
    expect(releaseLease(lease, tablet, at(1)).holder).toBeNull();
  });

  it('says at once that the page is gone when its socket fell, and forgets it when the page is back', () => {
    const held = takeLease(tablet, 'tablet', at(0));
    expect(lostFor(held, at(2_999))).toBeNull();
    expect(lostFor(held, at(3_000))).toBe(3_000);
    const parted = partLease(held, tablet);
    expect(lostFor(parted, at(200))).toBe(200);
    expect(lostFor(renewLease(parted, tablet, at(400)), at(500))).toBeNull();
    expect(partLease(held, phone)).toEqual(held);
  });

  it('falls free when its page went and the grace is over; a page that is only silent keeps it', () => {
    const held = takeLease(tablet, 'tablet', at(0));
    const parted = partLease(held, tablet);
    expect(freedLease(parted, at(LEASE_GRACE_MS - 1))).toBe(parted);
    expect(freedLease(parted, at(LEASE_GRACE_MS))).toEqual(noLease(at(LEASE_GRACE_MS)));
    expect(freedLease(held, at(10 * LEASE_GRACE_MS))).toBe(held);
    expect(freedLease(renewLease(parted, tablet, at(9_000)), at(60_000)).holder).toBe(tablet);
  });
});
