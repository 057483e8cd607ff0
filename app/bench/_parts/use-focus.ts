'use client';
import { useEffect } from 'react';

/** Where something stands: each thing around it, innermost first, with its place in that. */
type Place = readonly (readonly [around: Element, at: number])[];

const placeOf = (element: Element): Place => {
  const around = element.parentElement;
  return around === null ? [] : [[around, [...around.children].indexOf(element)], ...placeOf(around)];
};

/**
 * Where the focus goes from a place that is no more. A target of the foot, or a sheet, hands it to what has come in its very place; a sheet
 * that was closed back to what it was opened by. A card hands it to nothing else that can be pressed, or a second press would choose:
 * it goes to the room the cards stand in, where the keys step through them.
 */
const heirOf = (place: Place, opener: Element | null): Element | null => {
  const [around, at] = place.find(([one]) => one.isConnected) ?? [document.body, 0];
  const there = around.children[at];
  if (there?.matches('button:not([data-card]), dialog') === true) return there;
  if (opener?.isConnected === true) return opener;
  return around.closest('[tabindex]') ?? around.querySelector('[tabindex]');
};

/** The keyboard's focus is never dropped when what has it goes: a page would begin anew at its top, and a screen reader lose its place. */
export const useKeptFocus = (): void =>
  useEffect(() => {
    let last: { readonly target: Element; readonly place: Place; readonly opener: Element | null } | null = null;
    let outside: Element | null = null;
    const focused = ({ target }: FocusEvent): void => {
      if (!(target instanceof Element)) return;
      const inSheet = target.closest('dialog') !== null;
      if (!inSheet) outside = target;
      last = { target, place: placeOf(target), opener: inSheet ? outside : null };
    };
    const changes = new MutationObserver(() => {
      if (last === null || last.target.isConnected) return;
      const { place, opener } = last;
      last = null;
      if (document.activeElement !== document.body) return;
      const heir = heirOf(place, opener);
      if (heir instanceof HTMLElement) heir.focus({ preventScroll: true });
    });
    changes.observe(document.body, { childList: true, subtree: true });
    document.addEventListener('focusin', focused);
    return () => {
      changes.disconnect();
      document.removeEventListener('focusin', focused);
    };
  }, []);
