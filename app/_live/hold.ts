import type { Guard } from './guard';

/** A hold is this long; the track along the foot of the target is full then. */
export const HOLD_MS = 2_000;
/** Let go within this of the track being full. Water, a sleeve or a wrist lies on without letting go, and never counts. */
export const LET_GO_MS = 4_000;
/** A finger trembles this much, in CSS pixels; more is a slide, or a drop running. */
const TREMBLE = 16;
/** A screen reader activates twice instead: not sooner than this after the first, not later than that. */
export const CONFIRM_FROM_MS = 2_000;
export const CONFIRM_UNTIL_MS = 10_000;

export type HoldPhase = 'rest' | 'holding' | 'full' | 'armed' | 'confirm';

export interface HoldDeps {
  readonly guard: Guard;
  readonly now: () => number;
  /** Calls once after `ms`; returns the way to call it off. */
  readonly after: (ms: number, run: () => void) => () => void;
  readonly onPhase: (phase: HoldPhase) => void;
}

export interface HoldMeaning {
  readonly onHeld: () => void;
  /** Let go early: a tap, where a tap means something too. */
  readonly onTap?: (() => void) | undefined;
}

export interface Point {
  readonly id: number;
  readonly x: number;
  readonly y: number;
}

/** One target's hold, from whatever presses it. `alone`: no other finger or drop is on the glass. */
export interface Hold {
  /** What it does, from now on. */
  means(meaning: HoldMeaning): void;
  press(point: Point, alone: boolean): void;
  move(point: Point, inside: boolean): void;
  release(id: number): void;
  /** Another touch anywhere, a lost pointer, a menu: the hold is off. */
  cancel(): void;
  /** A key went down or up on it; a repeat is not a press. */
  keyDown(repeat: boolean): void;
  keyUp(): void;
  /** An activation without press and release: a screen reader's. */
  activate(): void;
  dispose(): void;
}

const KEY = -1;

/** Counts as held: pressed alone, kept still for two seconds, and let go soon after. Anything else is a tap or nothing. */
export const createHold = (deps: HoldDeps): Hold => {
  let phase: HoldPhase = 'rest';
  let pressed: (Point & { epoch: number; at: number }) | null = null;
  let calls: (() => void)[] = [];
  let meaning: HoldMeaning | null = null;

  const set = (next: HoldPhase): void => {
    if (phase === next) return;
    phase = next;
    deps.onPhase(next);
  };
  const reset = (): void => {
    for (const call of calls) call();
    calls = [];
    pressed = null;
    set('rest');
  };
  const begin = (point: Point): void => {
    if (!deps.guard.open()) return;
    reset();
    pressed = { ...point, epoch: deps.guard.epoch(), at: deps.now() };
    set('holding');
    calls = [deps.after(HOLD_MS, () => set('full')), deps.after(HOLD_MS + LET_GO_MS, reset)];
  };
  const end = (): void => {
    const press = pressed;
    reset();
    if (press === null || press.epoch !== deps.guard.epoch()) return;
    const lasted = deps.now() - press.at;
    if (lasted >= HOLD_MS) meaning?.onHeld();
    else meaning?.onTap?.();
  };

  return {
    means(wanted) {
      meaning = wanted;
    },
    press(point, alone) {
      if (alone) begin(point);
      else reset();
    },
    move({ id, x, y }, inside) {
      if (pressed === null || pressed.id !== id) return;
      if (!inside || Math.hypot(x - pressed.x, y - pressed.y) > TREMBLE) reset();
    },
    release(id) {
      if (pressed?.id === id) end();
    },
    cancel: reset,
    keyDown(repeat) {
      if (!repeat && pressed === null) begin({ id: KEY, x: 0, y: 0 });
    },
    keyUp() {
      if (pressed?.id === KEY) end();
    },
    activate() {
      if (!deps.guard.open()) return;
      if (phase === 'confirm') {
        reset();
        meaning?.onHeld();
      } else if (phase === 'rest') {
        set('armed');
        calls = [deps.after(CONFIRM_FROM_MS, () => set('confirm')), deps.after(CONFIRM_UNTIL_MS, reset)];
      }
    },
    dispose: reset,
  };
};
