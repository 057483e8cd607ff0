'use client';
import { useEffect, useState } from 'react';
import type { KeyboardEvent, PointerEvent, ReactNode } from 'react';
import { glass } from '../_live/gestures';
import { createHold } from '../_live/hold';
import type { Hold, HoldPhase } from '../_live/hold';
import { guard } from '../_live/start';
import styles from './press.module.css';

/** What a hold says along its foot while it runs. */
export interface HoldWords {
  readonly letGo: string;
  readonly armed: string;
  readonly confirm: string;
}

interface Common {
  readonly name: string;
  readonly sub?: string | undefined;
  readonly icon?: ReactNode;
  /** Under the words. */
  readonly more?: ReactNode;
  /** Loud: a filled plate, for the one thing that asks to be pressed. */
  readonly loud?: boolean;
  readonly className?: string | undefined;
  readonly current?: boolean;
  readonly label?: string | undefined;
  /** Written into the page for those who read it from outside. */
  readonly data?: Readonly<Record<`data-${string}`, string | undefined>>;
}

const join = (...names: readonly (string | false | undefined)[]): string => names.filter(Boolean).join(' ');

const Face = ({ name, sub, icon, more }: Pick<Common, 'name' | 'sub' | 'icon' | 'more'>) => (
  <>
    {icon}
    {/* Other words are another element: what is centred anew has not moved. */}
    <span key={`${name} ${sub}`} className={styles['words']}>
      <b>{name}</b>
      {sub === undefined ? null : <span>{sub}</span>}
      {more}
    </span>
  </>
);

/** A target with a solid edge: tapped. Without `onTap` its edge is dashed: it waits, and says for what. */
export function Press({ onTap, ...face }: Common & { readonly onTap?: (() => void) | undefined }) {
  const waits = onTap === undefined;
  return (
    <button
      type="button"
      className={join(styles['press'], waits && styles['waits'], face.loud === true && styles['loud'], face.className)}
      aria-disabled={waits || undefined}
      aria-current={face.current === true ? 'true' : undefined}
      aria-label={face.label}
      onClick={onTap}
      {...face.data}
    >
      <Face {...face} />
    </button>
  );
}

export interface HoldPressProps extends Common {
  readonly onHeld: () => void;
  readonly onTap?: (() => void) | undefined;
  readonly words: HoldWords;
  /** The same hold, under way on a pedal or key. */
  readonly pedal?: 'holding' | 'full' | null;
}

/** A target with a track along its foot: held for two seconds and let go, or activated twice by a screen reader. */
export function HoldPress({ onHeld, onTap, words, pedal = null, ...face }: HoldPressProps) {
  const [phase, setPhase] = useState<HoldPhase>('rest');
  const [hold] = useState(() =>
    createHold({
      guard,
      now: () => performance.now(),
      after: (ms, run) => {
        const timer = setTimeout(run, ms);
        return () => clearTimeout(timer);
      },
      onPhase: setPhase,
    }),
  );
  useEffect(() => hold.means({ onHeld, onTap }));
  useEffect(() => {
    const stop = glass.onSecond(() => hold.cancel());
    return () => {
      stop();
      hold.dispose();
    };
  }, [hold]);

  const shown = pedal ?? phase;
  return (
    <button
      type="button"
      className={join(styles['press'], styles['hold'], face.loud === true && styles['loud'], face.className)}
      data-hold={shown}
      aria-current={face.current === true ? 'true' : undefined}
      aria-label={face.label}
      aria-describedby={HOLD_HINT}
      {...face.data}
      {...pointer(hold)}
      {...keyboard(hold)}
      onContextMenu={(event) => event.preventDefault()}
      onClick={(event) => {
        // Fingers, mice and keys were dealt with on their way down and up; what is left is a screen reader's activation.
        if (event.detail === 0) hold.activate();
      }}
    >
      <Face {...face} sub={wordFor(shown, words) ?? face.sub} />
      <i className={styles['track']} aria-hidden="true">
        <i />
      </i>
    </button>
  );
}

const HOLD_HINT = 'hold-hint';

/** How a hold is done, said once for all of them. Every page with a hold has one. */
export function HoldHint({ text }: { readonly text: string }) {
  return (
    <p id={HOLD_HINT} className="unseen">
      {text}
    </p>
  );
}

const wordFor = (phase: HoldPhase, words: HoldWords): string | null => {
  if (phase === 'full') return words.letGo;
  if (phase === 'armed') return words.armed;
  return phase === 'confirm' ? words.confirm : null;
};

type Pointer = PointerEvent<HTMLButtonElement>;
type Key = KeyboardEvent<HTMLButtonElement>;

const pointer = (hold: Hold) => ({
  onPointerDown: (event: Pointer) => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    hold.press({ id: event.pointerId, x: event.clientX, y: event.clientY }, glass.touches() <= 1);
  },
  onPointerMove: (event: Pointer) => {
    const { left, right, top, bottom } = event.currentTarget.getBoundingClientRect();
    const inside = event.clientX >= left && event.clientX <= right && event.clientY >= top && event.clientY <= bottom;
    hold.move({ id: event.pointerId, x: event.clientX, y: event.clientY }, inside);
  },
  onPointerUp: (event: Pointer) => hold.release(event.pointerId),
  onPointerCancel: () => hold.cancel(),
});

const isActivation = (event: Key): boolean => event.key === 'Enter' || event.key === ' ';

const keyboard = (hold: Hold) => ({
  onKeyDown: (event: Key) => {
    if (!isActivation(event)) return;
    event.preventDefault();
    hold.keyDown(event.repeat);
  },
  onKeyUp: (event: Key) => {
    if (!isActivation(event)) return;
    event.preventDefault();
    hold.keyUp();
  },
  onBlur: () => hold.cancel(),
});
