import { capital, inWords } from '#lib/words/words';

/** Words of the room a log stands in. */
export const conditionWords = {
  ask: 'How warm and damp is the room? Optional',
  askHumidity: 'How damp is the room? Optional',
  probe: { before: 'The room’s probe says', after: ': it goes with the answer.' },
  room: (unit: 'C' | 'F') => `Room, °${unit}`,
  humidity: 'Humidity, %',
  damp: (percent: string) => `${percent} humidity`,
  head: 'room',
  rooms: (lots: number, of: number, least: string, most: string) =>
    `${lots === of ? 'They' : capital(`${inWords(lots)} of them`)} stood in ${least === most ? `a room of ${least}` : `rooms from ${least} to ${most}`}.`,
} as const;

/** Words of the latest cutting time. */
export const latestWords = {
  ahead: (when: string, hours: number) => `Cut before ${when}: ${hours} h from pouring, as set for this formula.`,
  past: (when: string, hours: number) =>
    `It should have been cut before ${when}, ${hours} h from pouring: cut a bar off the end first and see whether it crumbles.`,
} as const;
