'use client';
import { createScanner } from '../../_live/scanner';
import type { Whose } from '../../_live/scanner';
import { benchKey } from '../../_live/keys';
import { act, intend } from './controls';

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

/** The window's keyboard as if lost: whatever key was down is forgotten. */
const forgetKeys = (): void => void window.dispatchEvent(new Event('blur'));

/** Listens before the hands' keys do, for as long as the page lives. Returns the way to stop. */
export const listenForScans = (): (() => void) => {
  const scanner = createScanner({
    now: () => performance.now(),
    after(ms, run) {
      const timer = setTimeout(run, ms);
      return () => clearTimeout(timer);
    },
    onScan: (text) => intend({ kind: 'scan', text }),
    onBurst: forgetKeys,
    onHand(key) {
      const meant = benchKey(key);
      forgetKeys();
      // Silence acted on its way down.
      if (meant !== null && meant !== 'silence') act(meant, false);
    },
  });
  const down = heed((key) => scanner.down(key));
  const up = heed((key) => scanner.up(key));
  window.addEventListener('keydown', down, { capture: true });
  window.addEventListener('keyup', up, { capture: true });
  return () => {
    window.removeEventListener('keydown', down, { capture: true });
    window.removeEventListener('keyup', up, { capture: true });
  };
};
