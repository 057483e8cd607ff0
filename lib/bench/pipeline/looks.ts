import type { Clock } from '#lib/units/time';
import { loopRan, UNWATCHED } from '#lib/measure/readings/burst';
import type { Stall } from '#lib/measure/readings/burst';
import { clockJump } from '../clock-watch';
import type { ClockJump, ClockLook } from '../clock-watch';
import { freedLease, isLeased, noLease } from '../lease';
import type { Lease } from '../lease';

export interface LookParts {
  readonly clock: Clock;
  readonly up: () => number | null;
  readonly stalled: (stall: Stall) => void;
  readonly jumped: (jump: ClockJump) => void;
  /** The lease passed to another screen, ran out or came back. */
  readonly leaseChanged: () => void;
}

/** What time does to a bench while nobody does anything. */
export interface Looks {
  /** Before anything is looked at: did the process stand still? */
  loop(): void;
  clocks(): void;
  /** Has the lease run out, or fallen free? */
  leases(): void;
  lease(): Lease;
  setLease(lease: Lease): void;
}

export const createLooks = ({ clock, up, stalled, jumped, leaseChanged }: LookParts): Looks => {
  let watch = UNWATCHED;
  let before: ClockLook | null = null;
  let lease = noLease(clock.now());
  let leased = false;

  const leases = (passed: boolean): void => {
    const now = clock.now();
    const kept = freedLease(lease, now);
    const freed = kept !== lease;
    lease = kept;
    const held = isLeased(lease, now);
    if (held === leased && !passed && !freed) return;
    leased = held;
    leaseChanged();
  };
  return {
    loop() {
      const ran = loopRan(watch, clock.now());
      watch = ran.watch;
      if (ran.stall !== null) stalled(ran.stall);
    },
    clocks() {
      const now: ClockLook = { mono: clock.now(), wall: clock.wall(), up: up() };
      const jump = before === null ? null : clockJump(before, now);
      before = now;
      if (jump !== null) jumped(jump);
    },
    leases: () => leases(false),
    lease: () => lease,
    setLease(next) {
      const passed = next.holder !== lease.holder || next.gone !== lease.gone;
      lease = next;
      leases(passed);
    },
  };
};
