import { numberOf } from '../formula/index';

/** Money, or how much of a thing, as typed; `null` where nobody has said, or it cannot be. */
export const priced = (text: string | null | undefined): number | null => {
  const value = text === null || text === undefined ? null : numberOf(text);
  return value === null || value < 0 ? null : value;
};

/** Money for one of what a pack holds; `null` where one of the two is not known. */
export const pricePerOne = (price: string | null | undefined, pack: string | null | undefined): number | null => {
  const [money, holds] = [priced(price), priced(pack)];
  return money === null || holds === null || holds === 0 ? null : money / holds;
};
