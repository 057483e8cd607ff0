import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { PlanList } from '#lib/protocol/http';
import type { Plan } from '#lib/work/batch/index';
import type { RunningServer } from '#server/server';
import { FIRST_FORMULA, keep, prepareFirst, SODA_LOT } from '#tests/support/first-formula';
import { optionsFor, screenAt, serverHere, tempFolder } from '#tests/support/server-rig';

const weights = (plan: Plan): Record<string, number> => Object.fromEntries(plan.lines.map(({ material, target }) => [material.id, target]));

describe('from a formula to the bench', () => {
  let folder: ReturnType<typeof tempFolder>;
  let server: RunningServer;
  beforeEach(async () => {
    folder = tempFolder();
    server = await serverHere(optionsFor(folder.path, { practice: true }));
  });
  afterEach(async () => {
    await server.stop();
    folder.remove();
  });
  const at = (path: string): string => `http://127.0.0.1:${server.port}${path}`;
  const put = async (noun: string, document: { readonly id: string }, expected = 0): Promise<void> => {
    expect(await keep(server.port, noun, document, expected)).toBe(expected + 1);
  };
  const offered = async (): Promise<PlanList['plans'][number] | undefined> => {
    const list = (await (await fetch(at('/api/plans'))).json()) as PlanList;
    return list.plans.find(({ id }) => id === 'monday');
  };
  const prepare = (): Promise<void> => prepareFirst(server.port);

  it('offers what was prepared, with the lots in the stores, and starts exactly those lines', async () => {
    await prepare();
    const plan = await offered();
    if (plan === undefined) throw new Error('not offered');
    const kilo = weights(plan.plan);
    expect(kilo).toMatchObject({ tallow: 300_000, coconut: 250_000, olive: 450_000 });
    expect(plan.lots).toMatchObject({ tallow: [{ id: 'tallow-1', mark: 'TA 1' }] });
    const screen = screenAt(server.port);
    await screen.greeted();
    await screen.lease('take');
    const lots = { tallow: { id: 'tallow-1', mark: 'not for the screen to say' } };
    expect(await screen.intent({ kind: 'start', plan: 'monday', lots })).toMatchObject({ ok: true });
    const batch = screen.batch();
    expect(Object.values(batch?.lines ?? {}).map((line) => [line.plan.id, line.plan.target, line.plan.tolerance])).toEqual(
      plan.plan.lines.map(({ id, target, tolerance }) => [id, target, tolerance]),
    );
    expect(batch?.lines['tallow' as never]).toMatchObject({ plan: { lot: { mark: 'TA 1' } } });
    screen.close();
  });

  it('changes nothing in a batch under way when its formula is edited, or a certificate mended', async () => {
    await prepare();
    const screen = screenAt(server.port);
    await screen.greeted();
    await screen.lease('take');
    await screen.intent({ kind: 'start', plan: 'monday', lots: {} });
    const before = JSON.stringify(screen.batch()?.lines);
    await put('formula', { ...FIRST_FORMULA, version: 2, wishes: { ...FIRST_FORMULA.wishes, superfat: '9' } } as never, 1);
    await put('lot', { ...SODA_LOT, certificate: { ...SODA_LOT.certificate, purity: { value: '97' } } } as never, 1);
    const review = (await (await fetch(at(`/api/batches/${screen.batch()?.id}`))).json()) as { lines: { target: number }[] };
    expect(JSON.stringify(screen.batch()?.lines)).toBe(before);
    expect(review.lines.map(({ target }) => target)).toEqual(Object.values(screen.batch()?.lines ?? {}).map((line) => line.plan.target));
    // What is prepared names version 1 still, and takes the certificate as it stands now.
    const again = await offered();
    const soda = Object.values(screen.batch()?.lines ?? {}).find((line) => line.plan.material.class === 'hydroxide')?.plan.target ?? 0;
    const now = again?.plan.lines.find((line) => line.material.class === 'hydroxide')?.target ?? 0;
    expect(now / soda).toBeCloseTo(98.6 / 97, 3);
    screen.close();
  });

  it('does not offer, and does not start, what cannot be computed any more', async () => {
    await prepare();
    await put('lot', { ...SODA_LOT, certificate: null } as never, 1);
    expect(await offered()).toBeUndefined();
    const screen = screenAt(server.port);
    await screen.greeted();
    await screen.lease('take');
    expect(await screen.intent({ kind: 'start', plan: 'monday', lots: {} })).toMatchObject({
      ok: false,
      refusal: { code: 'plan-unsound', params: { id: 'monday' } },
    });
    screen.close();
  });
});
