import { describe, expect, it } from 'vitest';
import { IDLE_CUE } from '#lib/bench/conductor/blank';
import type { ForecastLane } from '#lib/protocol/forecast';
import type { RecordLane } from '#lib/protocol/lanes';
import type { LiveFrame } from '#lib/protocol/live';
import { createOutlet, FRAME_GAP_MS, LIVE_CAP_BYTES, RECORD_CAP_BYTES } from '#server/live/outlet';

const frame = (n: number): LiveFrame => ({ boot: 'b', n, merged: 0, at: n, scales: [], probes: [], cue: IDLE_CUE, alarms: [] });
const forecast = (at: number): ForecastLane => ({
  boot: 'b',
  at,
  batch: null,
  lye: NOTHING,
  oils: NOTHING,
  making: null,
  swapped: false,
  meeting: null,
});
const NOTHING = { outlook: { kind: 'none', why: 'nothing-heard', blocks: 0, needed: 8 }, marks: [] } as const;
const lane = (from: number, seq: number, batch = 'one'): RecordLane => ({ batch, from, seq, lines: [`${from}-${seq}`] });

/** One screen with a hand-driven clock and a pipe whose fill the test sets. */
const screen = () => {
  const sent: LiveFrame[] = [];
  const forecasts: ForecastLane[] = [];
  const records: RecordLane[] = [];
  const timers: { at: number; run: () => void }[] = [];
  const state = { now: 1_000, buffered: 0, reads: [] as [string | null, number][], journalSeq: 0 };
  const outlet = createOutlet({
    now: () => state.now,
    after: (ms, run) => {
      const timer = { at: state.now + ms, run };
      timers.push(timer);
      return () => void timers.splice(timers.indexOf(timer), 1);
    },
    buffered: () => state.buffered,
    sendFrame: (f) => sent.push(f),
    sendForecast: (l) => forecasts.push(l),
    sendRecord: (l) => records.push(l),
    readRecord: async (batch, after) => {
      state.reads.push([batch, after]);
      return lane(after, state.journalSeq);
    },
  });
  const pass = async (ms: number): Promise<void> => {
    const end = state.now + ms;
    for (;;) {
      const next = timers.toSorted((a, b) => a.at - b.at)[0];
      if (next === undefined || next.at > end) break;
      state.now = next.at;
      timers.splice(timers.indexOf(next), 1);
      next.run();
      await Promise.resolve();
    }
    state.now = end;
    for (let i = 0; i < 5; i += 1) await Promise.resolve();
  };
  return { outlet, sent, forecasts, records, state, pass };
};

describe('what one screen gets', () => {
  it('gets a frame at once when the last one is 40 ms old, never later', () => {
    const { outlet, sent, state } = screen();
    outlet.frame(frame(1));
    state.now += FRAME_GAP_MS;
    outlet.frame(frame(2));
    expect(sent.map((f) => [f.n, f.merged])).toEqual([
      [1, 0],
      [2, 0],
    ]);
  });

  it('gets the newest forecast at once, or as soon as it can take one', async () => {
    const { outlet, forecasts, state, pass } = screen();
    outlet.forecast(forecast(1));
    expect(forecasts.map(({ at }) => at)).toEqual([1]);
    state.buffered = LIVE_CAP_BYTES + 1;
    outlet.forecast(forecast(2));
    outlet.forecast(forecast(3));
    await pass(FRAME_GAP_MS);
    expect(forecasts).toHaveLength(1);
    state.buffered = 0;
    await pass(FRAME_GAP_MS);
    expect(forecasts.map(({ at }) => at)).toEqual([1, 3]);
  });

  it('gets the newest of what came too fast, with the count of what was merged into it', async () => {
    const { outlet, sent, pass } = screen();
    for (let n = 1; n <= 5; n += 1) outlet.frame(frame(n));
    await pass(FRAME_GAP_MS);
    expect(sent.map((f) => [f.n, f.merged])).toEqual([
      [1, 0],
      [5, 3],
    ]);
  });

  it('gets no more than 25 frames in a second, and loses none uncounted', async () => {
    const { outlet, sent, pass } = screen();
    for (let n = 1; n <= 200; n += 1) {
      outlet.frame(frame(n));
      await pass(5);
    }
    await pass(FRAME_GAP_MS);
    expect(sent.length).toBeLessThanOrEqual(26);
    expect(sent.reduce((sum, f) => sum + 1 + f.merged, 0)).toBe(200);
  });

  it('B12: gets nothing while its pipe is full, then the newest frame only', async () => {
    const { outlet, sent, state, pass } = screen();
    state.buffered = LIVE_CAP_BYTES + 1;
    for (let n = 1; n <= 1_000; n += 1) {
      outlet.frame(frame(n));
      await pass(10);
    }
    expect(sent).toEqual([]);
    state.buffered = 0;
    await pass(FRAME_GAP_MS);
    expect(sent.map((f) => [f.n, f.merged])).toEqual([[1_000, 999]]);
  });

  it('gets the record in order, and lines it missed are read again from the journal', async () => {
    const { outlet, records, state, pass } = screen();
    outlet.has('one', 4);
    outlet.record(lane(4, 5));
    state.journalSeq = 9;
    outlet.record(lane(8, 9));
    await pass(1);
    outlet.record(lane(9, 10));
    expect(state.reads).toEqual([['one', 5]]);
    expect(records.map((l) => [l.from, l.seq])).toEqual([
      [4, 5],
      [5, 9],
      [9, 10],
    ]);
  });

  it('B12: keeps no record lines for a screen that is full, and gives it every one of them later', async () => {
    const { outlet, records, state, pass } = screen();
    outlet.has('one', 0);
    state.buffered = RECORD_CAP_BYTES + 1;
    for (let seq = 1; seq <= 500; seq += 1) outlet.record(lane(seq - 1, seq));
    state.journalSeq = 500;
    await pass(5 * FRAME_GAP_MS);
    expect(records).toEqual([]);
    state.buffered = 0;
    await pass(FRAME_GAP_MS);
    expect(records.map((l) => [l.from, l.seq])).toEqual([[0, 500]]);
  });

  it('says nothing after it was closed', async () => {
    const { outlet, sent, pass } = screen();
    outlet.frame(frame(1));
    outlet.frame(frame(2));
    outlet.close();
    await pass(1_000);
    expect(sent.map((f) => f.n)).toEqual([1]);
  });
});
