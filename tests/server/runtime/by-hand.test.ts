import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { InstrumentConfig } from '#lib/measure/instrument';
import type { BatchPage } from '#lib/protocol/http';
import type { IntentWant } from '#lib/protocol/intent';
import type { CuePhase } from '#lib/bench/cue';
import { as } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { celsius } from '#lib/units/temperature';
import type { RunningServer } from '#server/server';
import { FIRST_PREPARED, prepareFirst } from '#tests/support/first-formula';
import { optionsFor, screenAt, serverHere, tempFolder } from '#tests/support/server-rig';
import type { ScreenRig } from '#tests/support/server-rig';

const LOOK_MS = 100;

/** Bound once and gone since: neither a weight nor a temperature ever comes from an instrument. */
const PROBE: InstrumentConfig = {
  kind: 'probe',
  id: as('probe-lye'),
  name: 'lye probe',
  path: '/dev/serial/by-id/no-such-probe',
  use: 'lye',
  shape: null,
  serial: { baudRate: 9600, frame: '8N1' },
};

const typed = (line: string, net: number, more: { held?: boolean; part?: boolean } = {}): IntentWant => ({
  kind: 'type-weight',
  line,
  net: mg(net),
  text: String(net / 1000),
  unit: 'g',
  readBack: true,
  part: false,
  ...more,
});

describe('a bench without a scale, in a workshop that types', () => {
  const folder = tempFolder();
  let server: RunningServer;
  let screen: ScreenRig;
  let alive: ReturnType<typeof setInterval>;
  beforeAll(async () => {
    server = await serverHere(optionsFor(folder.path, { practice: false, instruments: [PROBE] }));
    screen = screenAt(server.port);
    const { boot } = await screen.greeted();
    await screen.lease('take');
    alive = setInterval(() => screen.socket.emit('alive', { visible: true, boot }), 1_000);
  });
  afterAll(async () => {
    clearInterval(alive);
    screen.close();
    await server.stop();
    folder.remove();
  });

  const phase = (): CuePhase | undefined => screen.frames.at(-1)?.cue.phase;
  const must = async (want: IntentWant): Promise<void> => expect(await screen.insist(want)).toMatchObject({ ok: true });
  const refused = async (want: IntentWant): Promise<string | null> => {
    const answer = await screen.insist(want);
    return answer.ok ? null : answer.refusal.code;
  };
  /** Pressed until the bench has gone on: a press too soon after the words came up is swallowed. */
  const pressOn = (want: IntentWant, from: CuePhase): Promise<unknown> =>
    expect
      .poll(
        async () => {
          if (phase() === from) await screen.intent(want);
          return phase();
        },
        { interval: LOOK_MS, timeout: 10_000 },
      )
      .not.toBe(from);
  const line = (id: string) => screen.batch()?.lines[id as never];
  const target = (id: string): number => line(id)?.plan.target ?? NaN;

  it('is led from the first oil to the review by typed weights and temperatures, each by hand in the record', async () => {
    await prepareFirst(server.port);
    await must({ kind: 'start', plan: FIRST_PREPARED, lots: {} });
    for (const id of ['tallow', 'coconut', 'olive', 'water']) {
      await expect.poll(() => screen.frames.at(-1)?.cue).toMatchObject({ line: id, phase: 'by-hand', block: null });
      // Half of it first, where a jug holds no more.
      if (id === 'olive') await must(typed(id, 200_000, { part: true }));
      await must(typed(id, target(id) - (line(id)?.actual ?? 0)));
    }

    await expect.poll(phase).toBe('gate');
    expect(await refused(typed('soda', target('soda'), { held: true }))).toBe('needs-gate');
    await pressOn({ kind: 'press', key: 'go-on', hold: true }, 'gate');
    expect(await refused(typed('soda', target('soda')))).toBe('needs-hold');
    await must(typed('soda', target('soda'), { held: true }));

    await expect.poll(() => screen.frames.at(-1)?.cue.gate?.gate).toBe('cold-liquid');
    await pressOn({ kind: 'press', key: 'go-on', hold: true }, 'gate');
    await must({ kind: 'dissolve', held: true });

    await expect.poll(phase).toBe('temperatures');
    expect(await refused({ kind: 'join', held: true })).toBe('joining-held');
    await must({ kind: 'type-temperature', use: 'lye', value: celsius(40.5) });
    await must({ kind: 'type-temperature', use: 'oils', value: celsius(42) });
    await expect.poll(phase).toBe('joining');
    expect(await refused({ kind: 'join', held: false })).toBe('needs-hold');
    await must({ kind: 'join', held: true });

    await must({ kind: 'type-temperature', use: 'batter', value: celsius(43) });
    await must({ kind: 'stamp-trace', mark: 'thin', note: '' });
    await expect.poll(() => screen.frames.at(-1)?.cue).toMatchObject({ phase: 'pouring-moulds', portion: null });
    await must({ kind: 'split', vessel: 'pot', parts: [{ name: 'portion 1', mass: grams(900) }] });
    await must({ kind: 'close' });

    const id = screen.batch()?.id ?? '';
    const review = (await (await fetch(`http://127.0.0.1:${server.port}/api/batches/${id}`)).json()) as BatchPage;
    expect(review.summary).toMatchObject({ status: 'closed', realm: 'real', byHand: 6, lines: { closed: 5, of: 5 } });
    for (const one of review.lines) {
      expect(one, one.line).toMatchObject({ byHand: true, outcome: 'within', actual: one.target });
      expect(one.contributions.every(({ how, instrument }) => how === 'typed' && instrument === null)).toBe(true);
    }
    expect(review.joining).toMatchObject({ lye: 40_500, oils: 42_000, byHand: ['lye', 'oils'], overrides: [] });
    expect(review.trace).toMatchObject([{ mark: 'thin', batter: 43_000 }]);
    expect(review.parts).toEqual([{ name: 'portion 1', mass: grams(900), byHand: true }]);
    expect(review.checks).toEqual([]);
  }, 120_000);
});
