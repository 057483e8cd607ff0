import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BatchReview } from '#lib/work/batch/index';
import type { InstrumentConfig } from '#lib/measure/instrument';
import { grams } from '#lib/units/mass';
import type { RunningServer } from '#server/server';
import { encode, leadIn, still } from '#tests/support/encode-frames';
import { ptyPair } from '#tests/support/pty';
import type { Pty } from '#tests/support/pty';
import { scaleAt } from '#tests/support/scale-config';
import { optionsFor, screenAt, serverHere, tempFolder } from '#tests/support/server-rig';
import type { ScreenRig } from '#tests/support/server-rig';

describe('a bench with fewer scales than a plan asks for', () => {
  let folder: ReturnType<typeof tempFolder>;
  let server: RunningServer;
  let screen: ScreenRig;
  let pty: Pty | null;
  const start = async (instruments: readonly InstrumentConfig[]): Promise<void> => {
    server = await serverHere(optionsFor(folder.path, { practice: false, instruments }));
    screen = screenAt(server.port);
    await screen.greeted();
    await screen.lease('take');
  };
  const typed = async (line: string, net: number): Promise<void> => {
    const want = { kind: 'type-weight', line, net: grams(net), text: String(net), unit: 'g', readBack: true, part: false } as const;
    expect(await screen.insist(want)).toMatchObject({ ok: true });
  };
  beforeEach(() => {
    folder = tempFolder();
    pty = null;
  });
  afterEach(async () => {
    screen.close();
    await server.stop();
    await pty?.close();
    folder.remove();
  });

  it('with one, weighs on it what was meant for the small one, and the record tells it', async () => {
    pty = await ptyPair();
    const line = pty;
    await line.write(leadIn('header-comma', still(0, 1)));
    const sending = setInterval(() => void line.write(encode('header-comma', still(0, 1))), 100);
    await start([scaleAt(pty.path, { division: grams(0.1) })]);
    expect(await screen.intent({ kind: 'start', plan: 'meadowsweet', lots: {} })).toMatchObject({ ok: true });
    for (const [line, net] of [
      ['coconut', 150],
      ['olive', 250],
      ['sunflower', 100],
    ] as const)
      await typed(line, net);
    const led = await screen.frame(({ cue, scales }) => cue.line === 'meadowsweet-scent' && scales[0]?.gross === 0);
    expect(led.cue).toMatchObject({ phase: 'waiting-vessel', block: null });
    const review = (await (await fetch(`http://127.0.0.1:${server.port}/api/batches/${screen.batch()?.id}`)).json()) as BatchReview;
    expect(review.story.filter(({ code }) => code === 'scale-stood-in').map(({ params }) => [params['line'], params['scale']])).toEqual([
      ['meadowsweet-scent', 'main'],
    ]);
    clearInterval(sending);
  });
});
