import { expect, it } from 'vitest';
import { benchAfter } from '#tests/support/bench-after';
import { lineId, started } from '#tests/support/batch';
import { TABLET } from '#tests/support/bench-rig';

it('a button that found no weight to take says so: nobody believes a part kept, or a jug weighed back, that was not', async () => {
  const rig = await benchAfter(started());
  await rig.pass(1_000, () => rig.weight(0));
  expect(await rig.intent({ kind: 'part-pour' })).toMatchObject({ ok: false, refusal: { code: 'not-settled' } });
  expect(await rig.intent({ kind: 'weigh-back' })).toMatchObject({ ok: false, refusal: { code: 'no-jug' } });
  expect(await rig.intent({ kind: 'away' })).toMatchObject({ ok: true });
});

it('what is poured and in no entry yet is known to every command: nothing that opens an earlier line is done before it is kept', async () => {
  const before = started().weighAll('olive');
  const { standing } = before.vessel('oils-pot');
  const stood = (standing?.gross ?? 0) / 1_000;
  const rig = await benchAfter(before);
  const stand = (grams: number, ms: number) => {
    rig.bench.takeLease(TABLET, 'tablet');
    return rig.pass(ms, () => rig.weight(grams));
  };
  await stand(0, 3_000);
  await stand(stood, 5_000);
  for (let poured = 0; poured <= 60; poured += 1) await stand(stood + poured, 50);
  await stand(stood + 60, 5_000);
  const lost = { kind: 'lose', vessel: 'oils-pot', mass: 30_000, cause: 'spill', note: '' } as const;
  expect(await rig.intent(lost)).toMatchObject({ refusal: { code: 'keep-first', params: { line: 'olive', net: 60_000 } } });
  expect(await rig.intent({ kind: 'part-pour' })).toMatchObject({ ok: true });
  expect(await rig.intent(lost)).toMatchObject({ ok: true });
  expect(rig.bench.batch()).toMatchObject({ open: 'coconut' });
  expect(rig.bench.batch()?.lines[lineId('olive')]?.contributions[0]).toMatchObject({ kind: 'pour', net: 60_000 });
});
