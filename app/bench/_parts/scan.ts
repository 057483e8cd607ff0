'use client';
import { createScanner } from '../../_live/scanner';
import type { Whose } from '../../_live/scanner';
import { benchKey } from '../../_live/keys';
import { act, intend } from './controls';
import { isTakenElsewhere } from './use-hands';

/** A field that has the keyboard's focus gets what a reader types, and an open keypad every digit, however fast two keys follow each other. */
const isTyping = (): boolean =>
  document.activeElement?.matches('input, textarea') === true || document.querySelector('[data-typed]') !== null;

/** Some readers send the separator of element strings as this key. */
const nameOf = (event: KeyboardEvent): string | null => {
  if (event.ctrlKey && event.key === ']') return '\u001d';
  return event.ctrlKey || event.altKey || event.metaKey ? null : event.key;
};

const heed = (ask: (key: string) => Whose) => (event: KeyboardEvent) => {
  const key = nameOf(event);
  if (key === null || event.repeat || isTyping() || ask(key) === 'pass') return;
  event.stopImmediatePropagation();
  event.preventDefault();
};

/** The keyboard as if lost to the window, and to the target that has it: whatever key was down is forgotten, and no hold goes on. */
const forgetKeys = (): void => {
  window.dispatchEvent(new Event('blur'));
  document.activeElement?.dispatchEvent(new FocusEvent('focusout', { bubbles: true }));
};

/** A key that was kept back, let go on the target it was pressed on: one that is held hears that itself, any other is pressed. */
const letGoOn = (target: Element, key: string): void => {
  const own = target.dispatchEvent(new KeyboardEvent('keyup', { key, bubbles: true, cancelable: true }));
  if (own && target instanceof HTMLElement) target.click();
};

/** Listens before the hands' keys do, for as long as the page lives. Returns the way to stop. */
export const listenForScans = (): (() => void) => {
  let pressed: EventTarget | null = null;
  const scanner = createScanner({
    now: () => performance.now(),
    after(ms, run) {
      const timer = setTimeout(run, ms);
      return () => clearTimeout(timer);
    },
    onScan: (text) => intend({ kind: 'scan', text }),
    onBurst: forgetKeys,
    onHand(key) {
      const { activeElement } = document;
      if (activeElement !== null && isTakenElsewhere(key)) return activeElement === pressed ? letGoOn(activeElement, key) : forgetKeys();
      const meant = benchKey(key);
      forgetKeys();
      // Silence acted on its way down.
      if (meant !== null && meant !== 'silence') act(meant, false);
      return undefined;
    },
  });
  const heedDown = heed((key) => scanner.down(key));
  const down = (event: KeyboardEvent): void => {
    if (!event.repeat) pressed = event.target;
    heedDown(event);
  };
  const up = heed((key) => scanner.up(key));
  window.addEventListener('keydown', down, { capture: true });
  window.addEventListener('keyup', up, { capture: true });
  return () => {
    window.removeEventListener('keydown', down, { capture: true });
    window.removeEventListener('keyup', up, { capture: true });
  };
};
