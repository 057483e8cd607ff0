/** How hot the lye is foretold to get, °C, from what its liquid had. */
export interface Expected {
  readonly start: number;
  readonly peak: number;
}

/**
 * Whether the probes of lye and oils look swapped. A suspicion to be told, never acted on:
 *   heating     the lye was made, and the oils' probe heats as lye does while the lye's does not
 *   cooling     the oils' probe has been where the lye was foretold to get and comes down from there, and the lye's never was
 *   exchanged   each suddenly says what the other said
 */
export interface SwapWatch {
  heard(use: Use, at: number, celsius: number): void;
  /** Hydroxide went in, s. */
  made(at: number): void;
  /** What is foretold of the lye; `null`: nothing. */
  expects(expected: Expected | null): void;
  forget(): void;
  suspected(): boolean;
}

type Use = 'lye' | 'oils';

interface Pair {
  readonly at: number;
  readonly lye: number;
  readonly oils: number;
}

/** K and s: no hob heats a pot by so much so soon, and dissolving always does (common practice, no source). */
const HEATS = 15;
const WITHIN_S = 180;
/** What the lye's own probe may have risen meanwhile, K. */
const STANDS = 3;

/** Shares of the rise foretold that the lye's own probe never came to, and the oils' did; from so long after, for so long, s; and fallen by K. Ours. */
const [LITTLE, MOST] = [0.3, 0.7];
const [FROM_S, UNTIL_S] = [240, 3_600];
const FALLEN = 2;

/** An exchange: so far apart before, K, each within a share of that of the other's place, after so long at the least and the most, s. Ours. */
const APART = 8;
const NEAR = 0.25;
const [AFTER_S, BEFORE_S] = [20, 180];
const EVERY_S = 5;

export const createSwapWatch = (): SwapWatch => {
  const newest = new Map<Use, number>();
  let base: Pair | null = null;
  let highest: Pair | null = null;
  let expected: Expected | null = null;
  let past: readonly Pair[] = [];
  let [heating, cooling, exchanged] = [false, false, false];
  let suspectedAt = -Infinity;

  const look = (now: Pair): void => {
    const { at, lye, oils } = now;
    if (hasExchanged(past, now)) {
      // After a suspicion it is what was asked for.
      exchanged = !exchanged && at - suspectedAt > BEFORE_S;
      [heating, cooling, past] = [false, false, []];
    }
    if (at - (past.at(-1)?.at ?? -Infinity) >= EVERY_S) past = [...past.filter((one) => at - one.at <= BEFORE_S), now];
    if (base === null) return;
    highest = { at, lye: Math.max(highest?.lye ?? lye, lye), oils: Math.max(highest?.oils ?? oils, oils) };
    // Put where it belongs, the lye's probe is the hotter one.
    if (lye >= oils) [heating, cooling] = [false, false];
    else {
      if (at - base.at <= WITHIN_S && oils - base.oils >= HEATS && lye - base.lye <= STANDS) heating = true;
      if (expected !== null && coolsLikeLye(expected, now, highest, at - base.at)) cooling = true;
    }
    if (heating || cooling) suspectedAt = at;
  };

  return {
    heard(use, at, celsius) {
      newest.set(use, celsius);
      const [lye, oils] = [newest.get('lye'), newest.get('oils')];
      if (lye !== undefined && oils !== undefined) look({ at, lye, oils });
    },
    made(at) {
      const [lye, oils] = [newest.get('lye'), newest.get('oils')];
      base = lye === undefined || oils === undefined ? null : { at, lye, oils };
      [highest, suspectedAt] = [null, -Infinity];
      [heating, cooling, exchanged] = [false, false, false];
    },
    expects: (next) => void (expected = next),
    forget() {
      newest.clear();
      [base, highest, expected, past, suspectedAt] = [null, null, null, [], -Infinity];
      [heating, cooling, exchanged] = [false, false, false];
    },
    suspected: () => heating || cooling || exchanged,
  };
};

const coolsLikeLye = ({ start, peak }: Expected, { oils }: Pair, highest: Pair, since: number): boolean => {
  const rise = peak - start;
  if (rise < HEATS || since < FROM_S || since > UNTIL_S) return false;
  return highest.lye < start + LITTLE * rise && highest.oils >= start + MOST * rise && highest.oils - oils >= FALLEN;
};

const hasExchanged = (past: readonly Pair[], now: Pair): boolean =>
  past.some((then) => {
    const [ago, apart] = [now.at - then.at, Math.abs(then.lye - then.oils)];
    if (ago < AFTER_S || ago > BEFORE_S || apart < APART) return false;
    return Math.abs(now.lye - then.oils) <= NEAR * apart && Math.abs(now.oils - then.lye) <= NEAR * apart;
  });
