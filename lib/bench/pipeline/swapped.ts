/**
 * Whether the probes of lye and oils look swapped: the lye was made, and the oils' probe heats as lye does while the lye's does not. A suspicion
 * to be told, never acted on.
 */
export interface SwapWatch {
  heard(use: 'lye' | 'oils', at: number, celsius: number): void;
  /** Hydroxide went in, s. */
  made(at: number): void;
  forget(): void;
  suspected(): boolean;
}

/** K and s: no hob heats a pot by so much so soon, and dissolving always does (common practice, no source). */
const HEATS = 15;
const WITHIN_S = 180;
/** What the lye's own probe may have risen meanwhile, K. */
const STANDS = 3;

export const createSwapWatch = (): SwapWatch => {
  const newest = new Map<'lye' | 'oils', number>();
  let base: { readonly at: number; readonly lye: number; readonly oils: number } | null = null;
  let suspected = false;
  return {
    heard(use, at, celsius) {
      newest.set(use, celsius);
      const [lye, oils] = [newest.get('lye'), newest.get('oils')];
      if (base === null || lye === undefined || oils === undefined) return;
      // Put where it belongs, the lye's probe is the hotter one.
      if (lye >= oils) suspected = false;
      else if (at - base.at <= WITHIN_S && oils - base.oils >= HEATS && lye - base.lye <= STANDS) suspected = true;
    },
    made(at) {
      const [lye, oils] = [newest.get('lye'), newest.get('oils')];
      base = lye === undefined || oils === undefined ? null : { at, lye, oils };
      suspected = false;
    },
    forget() {
      newest.clear();
      [base, suspected] = [null, false];
    },
    suspected: () => suspected,
  };
};
