import type { Role } from '../../batch/commands';
import type { BarsCommandKind } from '../commands';

const MAKER: readonly Role[] = ['maker'];

/** What each role may do: a new kind does not compile until it stands here. A watcher looks; the program only takes what has settled. */
const ALLOWED: Readonly<Record<BarsCommandKind, readonly Role[]>> = {
  begin: MAKER,
  'note-unmould': MAKER,
  cut: MAKER,
  trim: MAKER,
  label: MAKER,
  weigh: ['maker', 'program'],
  'type-weight': MAKER,
  photo: MAKER,
  note: MAKER,
  move: MAKER,
  hold: MAKER,
  release: MAKER,
  wrap: MAKER,
  sell: MAKER,
  give: MAKER,
  spoil: MAKER,
  take: MAKER,
  'bring-home': MAKER,
  'count-market': MAKER,
  correct: MAKER,
};

export const roleMay = (role: Role, kind: BarsCommandKind): boolean => ALLOWED[kind].includes(role);
