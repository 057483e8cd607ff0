import type { ScaleRole } from '#lib/measure/instrument';
import type { BenchIntent, IntentAnswer } from '#lib/protocol/intent';
import type { ScreenId } from '#lib/units/id';

/** A reading as the bench was given it. Times are the run's. */
export interface Delivered {
  readonly role: ScaleRole;
  readonly at: number;
  readonly boot: string;
  readonly mass: number | null;
  readonly text: string;
  /** Base64 of the frame. */
  readonly raw: string;
  readonly unit: string;
  /** In what steps the scale truly showed it, mg. */
  readonly division: number;
  readonly moving: boolean;
  /** More than the scale can carry, and no overload mark. */
  readonly suspect: boolean;
  /** It had waited in the line while the process stood still; `maybe`: it came so soon after that it may have. */
  readonly waited: 'yes' | 'maybe' | 'no';
}

/** What truly stood on a scale at a reading. */
export interface Standing {
  readonly role: ScaleRole;
  readonly at: number;
  /** When the frame arrived: two come in one chunk. */
  readonly heard: number;
  readonly boot: string;
  readonly vessel: string | null;
  readonly contents: number;
  /** True steps of the figure then, and what the scale itself had wandered by, mg. */
  readonly division: number;
  readonly drift: number;
}

/** Something after which a weight has to settle anew. `role` `null`: on every scale. */
export interface Disarming {
  readonly role: ScaleRole | null;
  readonly at: number;
  readonly boot: string;
  /** It also takes the newest value away until another comes. */
  readonly forgets: boolean;
}

/** Control of the bench as it passed, and its page's heartbeats. */
export interface LeaseMoment {
  readonly at: number;
  readonly boot: string;
  readonly what: 'taken' | 'beat' | 'given back';
  readonly by: ScreenId;
}

export interface Sent {
  readonly intent: BenchIntent;
  readonly by: ScreenId;
  readonly role: 'maker' | 'watcher';
  readonly at: number;
  readonly boot: string;
  /** Every sending of it and what came back; an unanswered one has none. */
  readonly answers: IntentAnswer[];
}

/** When the rules said yes to a command: later than it was wanted where the disk was late, and by then the bench may be another's. */
export interface Decided {
  /** The run's time, and the boot's own clock. */
  readonly at: number;
  readonly mono: number;
  readonly holder: { readonly screen: ScreenId; readonly heardAt: number } | null;
}

export const acceptKey = (boot: string, episode: number): string => `${boot} ${episode}`;

/** Everything that happened to the bench, written down beside it and not by it. */
export class Happened {
  readonly delivered: Delivered[] = [];
  readonly stood: Standing[] = [];
  readonly disarmed: Disarming[] = [];
  readonly leases: LeaseMoment[] = [];
  readonly sent = new Map<string, Sent>();
  /** By intent, and each accept by its boot and episode. */
  readonly decided = new Map<string, Decided>();
  /** Start of each boot in the run's time, and what its monotonic clock said then. */
  readonly boots = new Map<string, { readonly at: number; readonly mono: number }>();
  /** Found while something happened: the step's check reports them. */
  readonly broken: string[] = [];

  /** A moment of a boot's clock in the run's time. */
  timeOf(boot: string, mono: number): number {
    const began = this.boots.get(boot);
    return began === undefined ? NaN : began.at + mono - began.mono;
  }

  /**
   * The readings of which one is the newest the bench may go by at this moment, newest first: none from before the port, the clock or the
   * process fell, none that had waited, and after one that may have waited the one before it as well.
   */
  newest(role: ScaleRole, boot: string, at: number): readonly Delivered[] {
    const since = this.lastDisarming(role, boot, at, true)?.at ?? -Infinity;
    const found: Delivered[] = [];
    for (let i = this.delivered.length - 1; i >= 0; i -= 1) {
      const one = this.delivered[i] as Delivered;
      if (one.boot !== boot || one.at < since) break;
      if (one.role !== role || one.at > at || one.waited === 'yes') continue;
      found.push(one);
      if (one.waited === 'no') break;
    }
    return found;
  }

  /** What stood on this scale at its last reading of this boot. */
  standing(role: ScaleRole, boot: string, at: number): Standing | null {
    return this.stood.findLast((one) => one.role === role && one.boot === boot && one.heard <= at) ?? null;
  }

  /** What stood there at that last reading, at those of the same chunk and at those up to so many ms before it, newest first. */
  stoodSince(role: ScaleRole, boot: string, at: number, ms: number): readonly Standing[] {
    const last = this.standing(role, boot, at);
    if (last === null) return [];
    const found: Standing[] = [];
    for (let i = this.stood.lastIndexOf(last); i >= 0; i -= 1) {
      const one = this.stood[i] as Standing;
      if (one.boot !== boot || (one.heard !== last.heard && one.at < last.at - ms)) break;
      if (one.role === role) found.push(one);
    }
    return found;
  }

  lastDisarming(role: ScaleRole, boot: string, at: number, forgets = false): Disarming | null {
    const found = this.disarmed.findLast(
      (one) => one.boot === boot && (one.role === null || one.role === role) && one.at <= at && (!forgets || one.forgets),
    );
    return found ?? null;
  }

  /** Who held the bench at this moment, by what was taken and given back. */
  holderAt(boot: string, at: number): { readonly screen: ScreenId; readonly heardAt: number } | null {
    return this.leases
      .filter((one) => one.boot === boot && one.at <= at)
      .reduce<{ readonly screen: ScreenId; readonly heardAt: number } | null>((holder, one) => {
        if (one.what === 'taken') return { screen: one.by, heardAt: one.at };
        if (holder?.screen !== one.by) return holder;
        return one.what === 'beat' ? { screen: one.by, heardAt: one.at } : null;
      }, null);
  }
}
