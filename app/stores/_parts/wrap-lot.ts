import type { FollowWrap, WrapLotKnown } from '#lib/protocol/lots';
import { followMessages } from '../messages-follow';

type Piece = Pick<WrapLotKnown, 'goods' | 'lot'>;

/** A lot of a wrap in an address. */
export const wrapQuery = ({ goods, lot }: Piece): string => `wrap=${encodeURIComponent(JSON.stringify([goods, lot]))}`;

/** The same back; `null`: the address names none. */
export const wrapIn = (query: { get(name: string): string | null }): Piece | null => {
  try {
    const [goods, lot] = JSON.parse(query.get('wrap') ?? 'null') as readonly unknown[];
    return typeof goods === 'string' && (typeof lot === 'string' || lot === null) ? { goods, lot } : null;
  } catch {
    return null;
  }
};

export const wrapName = ({ name, lot }: Pick<FollowWrap, 'name' | 'lot'>): string => `${name}, ${lot ?? followMessages.ask.noLot}`;
