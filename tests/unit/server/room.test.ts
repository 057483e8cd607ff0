import { describe, expect, it } from 'vitest';
import { as } from '#lib/units/id';
import type { ScreenId } from '#lib/units/id';
import { roomFor, SILENT_MS } from '#server/live/room';
import type { Place } from '#server/live/who';

const NOW = 1_000_000;
let count = 0;
const screen = (place: Place, silentMs = 0, id = `screen-${(count += 1)}`) => ({
  id: as<ScreenId>(id),
  place: () => place,
  heardAt: () => NOW - silentMs,
});
const many = (n: number, place: Place, silentMs = 0) => Array.from({ length: n }, () => screen(place, silentMs));
const asks = (place: Place, id = 'new') => ({ id: as<ScreenId>(id), place });

describe('room for one more screen', () => {
  it('is there for the machine itself and for what was opened with a code, however many come from elsewhere', () => {
    const crowd = many(64, 'elsewhere');
    expect(roomFor(asks('elsewhere'), crowd, NOW)).toBe('no');
    expect(roomFor(asks('paired'), crowd, NOW)).toBe('yes');
    const tablets = [...crowd, ...many(48, 'paired')];
    expect(roomFor(asks('paired'), tablets, NOW)).toBe('no');
    expect(roomFor(asks('here'), tablets, NOW)).toBe('yes');
    // And the other way round those here take no room from a tablet.
    expect(roomFor(asks('paired'), many(127, 'here'), NOW)).toBe('yes');
    expect(roomFor(asks('here'), many(128, 'here'), NOW)).toBe('no');
  });

  it('is made by the one that was silent longest, of those no nearer', () => {
    const silent = screen('elsewhere', 2 * SILENT_MS);
    const crowd = [...many(62, 'elsewhere'), screen('elsewhere', SILENT_MS), silent];
    expect(roomFor(asks('elsewhere'), crowd, NOW)).toBe(silent);
    expect(roomFor(asks('elsewhere'), [...many(63, 'elsewhere', SILENT_MS - 1), screen('elsewhere')], NOW)).toBe('no');
    const nearer = screen('here', 9 * SILENT_MS);
    expect(roomFor(asks('elsewhere'), [nearer, ...many(64, 'elsewhere')], NOW)).toBe('no');
    // Nobody goes while there is room.
    expect(roomFor(asks('elsewhere'), [silent, nearer], NOW)).toBe('yes');
  });

  it('is there for a page that comes back to its own place', () => {
    const crowd = [...many(63, 'elsewhere'), screen('elsewhere', 0, 'mine')];
    expect(roomFor(asks('elsewhere', 'mine'), crowd, NOW)).toBe('yes');
  });
});
