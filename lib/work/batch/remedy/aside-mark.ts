import type { BatchState } from '../state';

/** What the batch that is set aside next would be called: the first of 26-11 is 26-11b. */
export const asideMark = ({ mark, setAside }: Pick<BatchState, 'mark' | 'setAside'>): string =>
  `${mark}${String.fromCharCode('b'.charCodeAt(0) + setAside.length)}`;
