import { expect, it } from 'vitest';
import { OFFER_PIECES_MS } from '#lib/bench/conductor/offer';
import { as } from '#lib/units/id';
import { benchRig, entriesIn, PHONE, TABLET } from '#tests/support/bench-rig';

const COCONUT = as<never>('coconut');
const POT = as<never>('oils-pot');

it('no weight is accepted by itself while the leading page is covered or hidden; the moment begins anew when it shows it', async () => {
  const rig = benchRig();
  let covered = false;
  let visible = true;
  const stands = (ms: number, shown: number): Promise<void> =>
    rig.pass(ms, () => {
      rig.bench.alive(TABLET, visible, undefined, covered);
      // What another page says of itself is nothing to this weight.
      rig.bench.alive(PHONE, true, undefined, false);
      rig.weight(shown);
    });
  const accepted = async (): Promise<boolean> => (await entriesIn(rig.journal)).some(({ kind }) => kind === 'weight-accepted');

  await stands(2_500, 0);
  await rig.start();
  await stands(1_000, 0);
  const batch = rig.bench.batch();
  const empty = (batch?.vessels[POT]?.plan.empty ?? NaN) / 1000;
  const target = (batch?.lines[COCONUT]?.plan.target ?? NaN) / 1000;
  await stands(5_000, empty);
  let poured = 0;
  covered = true;
  await rig.pass(16_000, () => {
    rig.bench.alive(TABLET, visible, undefined, covered);
    rig.weight(empty + (poured = Math.min(target, poured + 2)));
  });
  await stands(3 * OFFER_PIECES_MS, empty + target);
  expect(rig.bench.frame().cue.phase).toBe('offer');
  covered = false;
  visible = false;
  await stands(2 * OFFER_PIECES_MS, empty + target);
  expect(await accepted()).toBe(false);
  visible = true;
  await stands(OFFER_PIECES_MS - 300, empty + target);
  expect(await accepted()).toBe(false);
  await stands(1_000, empty + target);
  expect(await accepted()).toBe(true);
});
