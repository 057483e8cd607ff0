import { expect, it } from 'vitest';
import type { LiveProbe } from '#lib/protocol/live';
import { milliCelsius } from '#lib/units/temperature';
import { summaryOf } from '#lib/work/bars/index';
import type { BarsWant } from '#lib/work/bars/index';
import { inRoom } from '#server/bars/command';
import { barsDue } from '#server/bars/due';
import { barsRig, BEGUN, HOUR, POURED } from '#tests/support/bars';

const NOTED: BarsWant = { kind: 'note-unmould', body: { state: 'out', note: '', room: null } };
const log = (id: string, ...answers: readonly ('out' | 'freezer' | 'not-yet')[]) => {
  const rig = barsRig(id as never);
  rig.send('begin', { ...BEGUN, mark: id });
  for (const state of answers) rig.send('note-unmould', { state, note: '', room: null }, POURED + 20 * HOUR);
  return summaryOf(rig.state());
};
const at = (want: BarsWant, ...probes: readonly LiveProbe[]) => inRoom(want, { probes }).body;
const probe = (use: LiveProbe['use'], value: number | null): LiveProbe => ({ use, name: `${use} probe`, value }) as LiveProbe;

it('an answer of a mould takes the room from its probe while that is fresh, and what was typed before it', () => {
  expect(at(NOTED, probe('oils', 40_000), probe('room', 19_400))).toEqual({ ...NOTED.body, room: 19_400, probe: 'room probe' });
  expect(at(NOTED, probe('room', null))).toEqual(NOTED.body);
  expect(at(NOTED, probe('oils', 40_000))).toEqual(NOTED.body);
  const typed: BarsWant = { kind: 'note-unmould', body: { state: 'out', note: '', room: milliCelsius(17_000), humidity: 610_000 } };
  expect(at(typed, probe('room', 19_400))).toEqual(typed.body);
});

it('counts logs whose window has opened or that wait to be cut, and none in the freezer', async () => {
  const rows = [log('fresh'), log('waits', 'not-yet'), log('cold', 'freezer'), log('whole', 'out')];
  const unmould = new Map([['f1', { id: 'f1', versions: [{ version: 1, document: { id: 'f1', from: null, to: null, latestCut: 30 } }] }]]);
  const store = {
    bars: { open: async () => rows, list: async () => ({ bars: [], next: null }) },
    shelf: { now: () => ({ unmould }) },
  } as unknown as Parameters<typeof barsDue>[0];
  const at = async (hours: number) =>
    (await barsDue(store, { wall: () => (POURED + hours * HOUR) as never })).logs.map(({ id, what, before }) => [id, what, before]);
  const before = POURED + 30 * HOUR;
  expect(await at(23)).toEqual([['whole', 'cut', before]]);
  expect(await at(24)).toEqual([
    ['fresh', 'unmould', before],
    ['waits', 'unmould', before],
    ['whole', 'cut', before],
  ]);
});
