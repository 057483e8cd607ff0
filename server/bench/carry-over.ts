import type { PersonId } from '#lib/units/id';
import { carriedFrom } from '#lib/work/shelf/carry';
import type { Carried } from '#lib/work/shelf/carry';
import type { Store } from '../store/store';

/** Begins chosen documents of one workshop in another. What stands there under the same id stays. */
export const carryOver = async (from: Pick<Store, 'shelf'>, to: Pick<Store, 'shelf'>, along: Carried, by: PersonId): Promise<void> => {
  for (const { noun, id, document } of carriedFrom(from.shelf.now(), along))
    await to.shelf.put({ noun, id, expected: 0, document, note: 'From the practice workshop.' }, by);
};
