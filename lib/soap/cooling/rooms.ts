import type { Room, Turn } from './types';

/** A temperature the vessel may be cooling towards, and how much it is believed before anything was seen. */
export interface RoomNode {
  readonly celsius: number;
  readonly prior: number;
}

/** A probe beside the vessels is off by its error and by a draught: ours. */
const AROUND_A_PROBE: readonly RoomNode[] = [
  { celsius: -1, prior: 0.5 },
  { celsius: 0, prior: 1 },
  { celsius: 1, prior: 0.5 },
];

/** A person reads a thermometer on the wall, not beside the vessels: ours. */
const AROUND_A_WORD: readonly RoomNode[] = [
  { celsius: -2, prior: 0.5 },
  { celsius: 0, prior: 1 },
  { celsius: 2, prior: 0.5 },
];

/** Workshops people work in, where no one has said: ours, no source. */
const UNKNOWN: readonly RoomNode[] = [18, 20, 22, 24, 26].map((celsius) => ({ celsius, prior: 1 }));

/** After a change to faster cooling: a bath of ice water, of tap water, or only stirring. */
const BATHS: readonly RoomNode[] = [6, 10, 14, 18, 22, 26].map((celsius) => ({ celsius, prior: 1 }));

export const roomNodes = (room: Room, turn: Turn | null): readonly RoomNode[] => {
  if (turn === 'faster') return BATHS;
  if (room === null) return UNKNOWN;
  const around = room.kind === 'probe' ? AROUND_A_PROBE : AROUND_A_WORD;
  return around.map(({ celsius, prior }) => ({ celsius: room.celsius + celsius, prior }));
};

/** The room as it is taken where only one figure is wanted. */
export const roomCelsius = (room: Room): number => room?.celsius ?? 22;
