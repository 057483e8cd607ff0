import { HOLD_MS, LET_GO_MS } from './hold';
import type { Guard } from './guard';

export type BenchKey = 'go-on' | 'back' | 'silence';

/** The three intents, from any keyboard, presenter or foot pedal. A pedal is a keyboard to the machine. */
const KEYS: Readonly<Record<string, BenchKey>> = {
  Enter: 'go-on',
  ' ': 'go-on',
  PageDown: 'go-on',
  ArrowRight: 'go-on',
  ArrowDown: 'go-on',
  Backspace: 'back',
  PageUp: 'back',
  ArrowLeft: 'back',
  ArrowUp: 'back',
  Escape: 'silence',
  s: 'silence',
  S: 'silence',
};

export const benchKey = (key: string): BenchKey | null => KEYS[key] ?? null;

export interface PedalDeps {
  readonly guard: Guard;
  readonly now: () => number;
  readonly after: (ms: number, run: () => void) => () => void;
  /** Which key is down, and since when it counts as held; `null`: none. */
  readonly onPhase: (phase: { readonly key: BenchKey; readonly full: boolean } | null) => void;
  readonly onPress: (key: BenchKey, hold: boolean) => void;
}

export interface Pedal {
  down(key: BenchKey, repeat: boolean): void;
  up(key: BenchKey): void;
  /** The window lost the keyboard: whatever is down is forgotten. */
  cancel(): void;
}

/**
 * Presses by key. Silence acts at once on the way down and is never swallowed: it can do no harm. Go on and back act when let go,
 * so that a press and a hold can be told apart; a key that stays down (a heel, a book) counts as nothing.
 */
export const createPedal = (deps: PedalDeps): Pedal => {
  let down: { key: BenchKey; at: number; epoch: number } | null = null;
  let calls: (() => void)[] = [];
  const reset = (): void => {
    for (const call of calls) call();
    calls = [];
    down = null;
    deps.onPhase(null);
  };
  return {
    down(key, repeat) {
      if (repeat) return;
      if (key === 'silence') return deps.onPress(key, false);
      if (down !== null) return reset();
      if (!deps.guard.open()) return undefined;
      down = { key, at: deps.now(), epoch: deps.guard.epoch() };
      deps.onPhase({ key, full: false });
      calls = [deps.after(HOLD_MS, () => deps.onPhase({ key, full: true })), deps.after(HOLD_MS + LET_GO_MS, reset)];
      return undefined;
    },
    up(key) {
      const press = down;
      if (press?.key !== key) return;
      reset();
      if (press.epoch === deps.guard.epoch()) deps.onPress(key, deps.now() - press.at >= HOLD_MS);
    },
    cancel: () => {
      if (down !== null) reset();
    },
  };
};
