'use client';
import { useLayoutEffect, useRef } from 'react';
import type { RefObject } from 'react';
import type { Display } from '#lib/units/display';
import type { LiveState } from '../_live/store';
import { onDrawing } from '../_live/start';
import { liveStore, useDisplay, useLive } from '../_live/use';

/** Sets the text of an element that holds nothing else, by its one text node and only when it is another. */
export const writeText = (element: Element, text: string): void => {
  const node = element.firstChild;
  if (node === null) element.append(text);
  else if (node.nodeValue !== text) node.nodeValue = text;
};

/** Keeps an element's contents as `write` says: after each drawing, and with each change of the live state without any. */
export const useLiveWriting = <E extends Element>(write: (element: E, state: LiveState) => void, told = onDrawing): RefObject<E | null> => {
  const element = useRef<E>(null);
  useLayoutEffect(() => {
    const now = (state: LiveState): void => {
      if (element.current !== null) write(element.current, state);
    };
    now(liveStore.getState());
    return told(now);
  });
  return element;
};

interface LiveTextProps {
  readonly read: (state: LiveState, display: Display) => string;
  readonly as?: 'span' | 'b' | 'em';
  readonly className?: string | undefined;
  readonly data?: Readonly<Record<`data-${string}`, string>>;
}

/**
 * A text that changes with the readings: an age, a temperature, a sum. It is drawn anew only when its length changes, as another
 * element: what is set anew beside it has not moved.
 */
export function LiveText(props: LiveTextProps) {
  const { read } = props;
  const display = useDisplay();
  const length = useLive((state) => read(state, display).length);
  return <Text key={length} display={display} {...props} />;
}

function Text({ read, display, as: Tag = 'span', className, data }: LiveTextProps & { readonly display: Display }) {
  const element = useLiveWriting<HTMLElement>((own, state) => writeText(own, read(state, display)));
  return <Tag ref={element} className={className} {...data} />;
}
