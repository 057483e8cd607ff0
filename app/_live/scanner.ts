/** Keys of a reader of barcodes come faster after one another than any hand's, ms. */
const GAP_MS = 50;
/** Fewer letters are no barcode. */
const LEAST = 4;

export interface ScannerDeps {
  readonly now: () => number;
  readonly after: (ms: number, run: () => void) => () => void;
  readonly onScan: (text: string) => void;
  /** What was taken for a hand's key was the beginning of a barcode: forget it. */
  readonly onBurst: () => void;
  /** A key that was kept back for a moment is a hand's after all. */
  readonly onHand: (key: string) => void;
}

/** `swallow`: it is the reader's. `pass`: it is a hand's, or nobody knows yet. */
export type Whose = 'swallow' | 'pass';

export interface Scanner {
  down(key: string): Whose;
  up(key: string): Whose;
}

/**
 * A reader of barcodes is a keyboard to the machine: a burst of letters ended by Enter. None of them may act as a hand's key, the Enter
 * least of all. The first letter of a burst is told from a hand's only by the second: let go too quickly for a hand, it is kept back until
 * the next could have come.
 */
export const createScanner = ({ now, after, onScan, onBurst, onHand }: ScannerDeps): Scanner => {
  let text = '';
  let last = -Infinity;
  let enterIsOurs = false;
  let release: (() => void) | null = null;
  const forget = (): void => {
    release?.();
    release = null;
  };
  const ended = (quick: boolean): Whose => {
    const whole = text;
    text = '';
    if (!quick || whole.length < LEAST) return 'pass';
    enterIsOurs = true;
    onScan(whole);
    return 'swallow';
  };
  return {
    down(key) {
      if (key.length > 1 && key !== 'Enter') return 'pass';
      const quick = now() - last <= GAP_MS;
      last = now();
      if (key === 'Enter') return ended(quick);
      if (!quick || text === '') {
        text = key;
        return 'pass';
      }
      text += key;
      if (text.length > 2) return 'swallow';
      forget();
      onBurst();
      return 'swallow';
    },
    up(key) {
      if (key === 'Enter') {
        const ours = enterIsOurs;
        enterIsOurs = false;
        return ours ? 'swallow' : 'pass';
      }
      if (text.length > 1 && key.length === 1) return 'swallow';
      if (text !== key || now() - last > GAP_MS) return 'pass';
      forget();
      release = after(GAP_MS, () => {
        release = null;
        onHand(key);
      });
      return 'swallow';
    },
  };
};
