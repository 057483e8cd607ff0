import type { Sentence } from '#lib/words/sentence';
import { SIZES } from './look';
import type { Page, Struct } from './page';

/** One sentence as an element of its own, its height taken. */
export const say = (
  page: Page,
  parent: Struct,
  sentence: Sentence,
  how: { x?: number; width?: number; size?: number; tag?: string; gap?: number } = {},
): void => {
  const { pen } = page;
  const { x = pen.left, width = pen.right - x, size = SIZES.text, tag = 'P', gap = 0 } = how;
  const set = pen.set(sentence, width, size, tag.startsWith('H') ? 'strong' : 'plain');
  page.room(set.height);
  page.put(tag, parent, () => pen.draw(set, x, page.y, width));
  page.y += set.height + gap;
};
