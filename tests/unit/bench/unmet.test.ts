import { expect, it } from 'vitest';
import { benchAfter } from '#tests/support/bench-after';
import { started } from '#tests/support/batch';

it('a button that found no weight to take says so: nobody believes a part kept, or a jug weighed back, that was not', async () => {
  const rig = await benchAfter(started());
  await rig.pass(1_000, () => rig.weight(0));
  expect(await rig.intent({ kind: 'part-pour' })).toMatchObject({ ok: false, refusal: { code: 'not-settled' } });
  expect(await rig.intent({ kind: 'weigh-back' })).toMatchObject({ ok: false, refusal: { code: 'no-jug' } });
  expect(await rig.intent({ kind: 'away' })).toMatchObject({ ok: true });
});
